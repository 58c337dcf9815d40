/** What `guide.ts`, beside the build, makes of docs/guide. */
declare module "virtual:guide" {
  export const groups: unknown;
  export const chapters: unknown;
}
