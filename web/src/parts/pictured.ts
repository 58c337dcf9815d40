/** A page as a picture that the page's own policy lets it show. */
export function pictured(svg: string): string {
  return `data:image/svg+xml;charset=utf-8,${encodeURIComponent(svg)}`;
}
