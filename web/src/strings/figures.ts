/** Figures and days as the reader writes them. */
export class Figures {
  readonly #locale: string;

  constructor(locale: string) {
    this.#locale = locale;
  }

  of(value: number, places = 1): string {
    const digits = { minimumFractionDigits: places, maximumFractionDigits: places };
    const shown = value.toLocaleString(this.#locale, digits);
    return /[1-9]/.test(shown) ? shown.replace("-", "−") : shown.replace("-", "");
  }

  signed(value: number): string {
    const shown = this.of(value);
    return value > 0 && /[1-9]/.test(shown) ? `+${shown}` : shown;
  }

  whole(value: number): string {
    return value.toLocaleString(this.#locale, { maximumFractionDigits: 0 });
  }

  /** As written: 0.5, 1.25. */
  plain(value: number): string {
    return value.toLocaleString(this.#locale, { maximumFractionDigits: 3 });
  }

  day(at: string): string {
    return new Date(at).toLocaleDateString(this.#locale, { dateStyle: "medium" });
  }

  /** The day on which a week begins; its year where the latest week is of another. */
  week(monday: string, latest = monday): string {
    const year = monday.slice(0, 4) === latest.slice(0, 4) ? undefined : "numeric";
    // a day of the calendar, wherever it is read
    return new Date(`${monday}T12:00:00`).toLocaleDateString(this.#locale, { day: "numeric", month: "short", year });
  }

  moment(at: string): string {
    return new Date(at).toLocaleString(this.#locale, { dateStyle: "medium", timeStyle: "short" });
  }
}

/** A day by the reader's own clock, as a field for days has it. */
export function dayOf(at: Date): string {
  const two = (n: number) => String(n).padStart(2, "0");
  return `${at.getFullYear()}-${two(at.getMonth() + 1)}-${two(at.getDate())}`;
}

export const today = (): string => dayOf(new Date());

/** A day for a record: none for today, which the record's own time tells. */
export function another(day: string): string | undefined {
  return day === "" || day === today() ? undefined : day;
}
