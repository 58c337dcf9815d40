/** The windows in which the page is pictured, CSS pixels. */
export const SIZES = {
  phone: { width: 390, height: 844 },
  tablet: { width: 834, height: 1194 },
  desk: { width: 1440, height: 900 },
} as const;

/** The one in which it is checked. */
export const PHONE = SIZES.phone;

export const TONES = ["light", "dark"] as const;
