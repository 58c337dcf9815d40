import { existsSync, readFileSync, readdirSync } from "node:fs";
import { join } from "node:path";
import { Marked, type Token, type Tokens } from "marked";
import type { Plugin } from "vite";
import type { Chapter, Group, Guide } from "./src/guide/shape.ts";

/** The guide as it was read: which pictures it shows, and what is wrong with it. */
export interface ReadGuide extends Guide {
  pictures: string[];
  troubles: string[];
}

export const FOLDER = new URL("../docs/guide/", import.meta.url).pathname;
/** The guide's contents: its groups and what belongs to each. */
const CONTENTS = "README.md";

/** Reads every chapter of a folder, and holds them against each other. */
export function readGuide(folder: string): ReadGuide {
  const files = readdirSync(folder).filter((name) => name.endsWith(".md") && name !== CONTENTS);
  const troubles: string[] = [];
  const pictures = new Set<string>();
  const links: { from: string; to: string }[] = [];
  const chapters = files.sort().map((file) => chapter(folder, file, { pictures, links, troubles }));
  const groups = contents(readFileSync(join(folder, CONTENTS), "utf8"));
  const entries = groups.flatMap((group) => group.entries);
  const grouped = new Set(entries.map((one) => one.chapter));
  for (const { id } of chapters)
    if (!grouped.has(id)) troubles.push(`${id}.md stands in no group of docs/guide/${CONTENTS}`);
  const known = new Set(chapters.flatMap(({ id, sections }) => sections.map((one) => address(id, one.id))));
  for (const { to } of entries) if (!known.has(to)) troubles.push(`${CONTENTS} leads to ${to}, which is not there`);
  for (const { from, to } of links) if (!known.has(to)) troubles.push(`${from}.md leads to ${to}, which is not there`);
  return { groups, chapters, pictures: [...pictures].sort(), troubles };
}

const address = (chapter: string, section: string) => (section === "" ? chapter : `${chapter}/${section}`);

interface Seen {
  pictures: Set<string>;
  links: { from: string; to: string }[];
  troubles: string[];
}

function chapter(folder: string, file: string, seen: Seen): Chapter {
  const id = file.replace(/\.md$/, "");
  const marked = writer(folder, id, seen);
  const inline = (heading: Tokens.Heading) => marked.parseInline(heading.text) as string;
  const [first, ...rest] = marked.lexer(readFileSync(join(folder, file), "utf8"));
  if (first?.type !== "heading" || (first as Tokens.Heading).depth !== 1) {
    seen.troubles.push(`${file} does not begin with its title`);
    return { id, title: id, heading: id, sections: [] };
  }
  const cut: { heading: Tokens.Heading | undefined; tokens: Token[] }[] = [{ heading: undefined, tokens: [] }];
  for (const token of rest) {
    if (token.type === "heading" && (token as Tokens.Heading).depth <= 2)
      cut.push({ heading: token as Tokens.Heading, tokens: [] });
    else cut.at(-1)?.tokens.push(token);
  }
  const names = new Map<string, number>();
  const sections = cut.map(({ heading, tokens }) => ({
    id: heading ? once(slug(plain(heading.text)), names) : "",
    title: heading ? plain(heading.text) : "",
    heading: heading ? inline(heading) : "",
    html: marked.parser(tokens),
  }));
  const title = first as Tokens.Heading;
  return { id, title: plain(title.text), heading: inline(title), sections };
}

/** Words of a heading without the signs that set them. */
const plain = (text: string) => text.replaceAll(/[`*]/g, "");

/** A heading's name in addresses. */
function slug(title: string): string {
  const kept = title.toLowerCase().replaceAll(/[^\p{L}\p{N} _-]/gu, "");
  return kept.replaceAll(" ", "-");
}

/** A second heading of the same words has a number behind its name. */
function once(name: string, names: Map<string, number>): string {
  const before = names.get(name);
  names.set(name, (before ?? 0) + 1);
  return before === undefined ? name : `${name}-${before}`;
}

/** Writes HTML: links lead inside the page, pictures are loaded when they are seen, wide things scroll by themselves. */
function writer(folder: string, id: string, seen: Seen): Marked {
  const isPicture = (cell: Tokens.TableCell) => cell.tokens.length === 1 && cell.tokens[0]?.type === "image";
  return new Marked({
    renderer: {
      link({ href, tokens }) {
        const text = this.parser.parseInline(tokens);
        const [, file, , section] = /^([\w-]+\.md)?(#(.*))?$/.exec(href) ?? [];
        if (file === undefined && section === undefined) {
          // the rest of the project's papers are not in the page
          if (!existsSync(join(folder, href))) seen.troubles.push(`${id}.md names ${href}, which is not there`);
          return text;
        }
        const to = address(file?.replace(/\.md$/, "") ?? id, section ?? "");
        seen.links.push({ from: id, to });
        return `<a href="#guide/${to}">${text}</a>`;
      },
      image({ href, text }) {
        const path = join(folder, href);
        if (!existsSync(path)) {
          seen.troubles.push(`${id}.md shows ${href}, which is not there`);
          return "";
        }
        seen.pictures.add(href);
        const { width, height } = size(readFileSync(path));
        return `<img src="${href}" alt="${escaped(text)}" width="${width}" height="${height}" loading="lazy">`;
      },
      table({ header, rows }) {
        if (rows.length === 0 && header.every(isPicture)) {
          const all = header.map((cell) => this.parser.parseInline(cell.tokens));
          return `<p class="pictures">${all.join("")}</p>`;
        }
        const line = (cells: Tokens.TableCell[], as: string) =>
          `<tr>${cells.map((cell) => `<${as}>${this.parser.parseInline(cell.tokens)}</${as}>`).join("")}</tr>`;
        const body = rows.map((row) => line(row, "td")).join("");
        return `<div class="wide" tabindex="0"><table><thead>${line(header, "th")}</thead><tbody>${body}</tbody></table></div>`;
      },
      code({ text }) {
        return `<pre tabindex="0"><code>${escaped(text)}</code></pre>`;
      },
    },
  });
}

const SIGNS: Record<string, string> = { "&": "&amp;", "<": "&lt;", ">": "&gt;", '"': "&quot;" };
const escaped = (text: string) => text.replaceAll(/[&<>"]/g, (sign) => SIGNS[sign] ?? sign);

/** Width and height of a WebP picture in pixels (RFC 9649, sections 2.5 and 2.7; a lossy frame's head is RFC 6386, 9.1). */
function size(file: Buffer): { width: number; height: number } {
  switch (file.toString("latin1", 8, 16)) {
    case "WEBPVP8 ":
      return { width: file.readUInt16LE(26) & 0x3fff, height: file.readUInt16LE(28) & 0x3fff };
    case "WEBPVP8X":
      return { width: file.readUIntLE(24, 3) + 1, height: file.readUIntLE(27, 3) + 1 };
    default:
      throw new Error("the guide's pictures are lossy WebP");
  }
}

/** The groups: headings, each with a list of chapters and a line about each. */
function contents(text: string): Group[] {
  const groups: Group[] = [];
  const marked = new Marked();
  for (const token of marked.lexer(text)) {
    if (token.type === "heading" && (token as Tokens.Heading).depth === 2) {
      const title = (token as Tokens.Heading).text;
      groups.push({ id: slug(title), title, entries: [] });
    }
    if (token.type !== "list") continue;
    for (const item of (token as Tokens.List).items) {
      const [, title, chapter, , section, line] =
        /^\[([^\]]+)\]\(([\w-]+)\.md(#([\w-]+))?\): (.+)$/s.exec(item.text) ?? [];
      if (title === undefined || chapter === undefined || line === undefined)
        throw new Error(`${CONTENTS}: not understood: ${item.text}`);
      const to = address(chapter, section ?? "");
      groups.at(-1)?.entries.push({ to, chapter, title: marked.parseInline(title) as string, line: plain(line) });
    }
  }
  return groups;
}

const NAME = "virtual:guide";

/** Gives the page the guide's chapters as HTML, from the same files that are read beside the code. */
export function guide(): Plugin {
  return {
    name: "guide",
    resolveId: (id) => (id === NAME ? `\0${NAME}` : undefined),
    load(id) {
      if (id !== `\0${NAME}`) return undefined;
      const { groups, chapters, pictures, troubles } = readGuide(FOLDER);
      if (troubles.length > 0) throw new Error(`the guide: ${troubles.join("; ")}`);
      const imports = pictures.map((path, at) => `import p${at} from ${JSON.stringify(`${join(FOLDER, path)}?url`)};`);
      const places = pictures.map((path, at) => `${JSON.stringify(path)}: p${at}`);
      return `${imports.join("\n")}
const places = { ${places.join(", ")} };
const placed = (html) => html.replace(/<img src="([^"]+)"/g, (_, path) => \`<img src="\${places[path]}"\`);
const guide = ${JSON.stringify({ groups, chapters })};
for (const { sections } of guide.chapters) for (const one of sections) one.html = placed(one.html);
export const { groups, chapters } = guide;`;
    },
  };
}
