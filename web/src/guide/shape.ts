/** A piece of a chapter from one heading to the next; the first one has no heading. */
export interface Section {
  /** Its name in addresses, as hosts of such files make it from the heading; empty for the first. */
  id: string;
  title: string;
  heading: string;
  html: string;
}

/** A file of the guide. */
export interface Chapter {
  id: string;
  title: string;
  heading: string;
  sections: Section[];
}

/** A chapter, or a section of it, as the contents name it. */
export interface Entry {
  /** Its address behind `#guide/`. */
  to: string;
  chapter: string;
  /** HTML. */
  title: string;
  line: string;
}

/** Chapters for some of the readers, in the order in which a newcomer reads. */
export interface Group {
  id: string;
  title: string;
  entries: Entry[];
}

/** The guide as the page shows it. */
export interface Guide {
  groups: Group[];
  chapters: Chapter[];
}
