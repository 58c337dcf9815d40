// The plots, by Observable Plot. It is loaded when there is something to draw, and all of its looks stand in our style sheet:
// the element that it makes for them would break the policy against styles in the page.
import { areaY, axisX, axisY, dot, lineY, plot, ruleX, ruleY, text } from "@observablehq/plot";
import type { AirShown, MonthShown, PlotView } from "../made/desk";

export interface Told {
  title: string;
  description: string;
}

type Marks = Parameters<typeof plot>[0] extends infer Options
  ? Options extends { marks?: infer M }
    ? NonNullable<M>
    : never
  : never;

let count = 0;

/** One picture, named and described, without a style of its own. */
function picture(told: Told, width: number, height: number, marks: Marks, y: object, x: object): SVGSVGElement {
  const svg = plot({
    width,
    height,
    marginLeft: 44,
    marginRight: 12,
    marginTop: 22,
    marginBottom: 38,
    className: "plot",
    x: { type: "utc", ...x },
    y: { nice: true, ...y },
    marks,
  }) as SVGSVGElement;
  for (const style of svg.querySelectorAll("style")) style.remove();
  const id = `plot-${(count += 1)}`;
  const named = (name: "title" | "desc", said: string) => {
    const element = document.createElementNS("http://www.w3.org/2000/svg", name);
    element.id = `${id}-${name}`;
    element.textContent = said;
    return element;
  };
  // inside, nothing is told on its own
  for (const mark of svg.querySelectorAll("[aria-label]")) mark.removeAttribute("aria-label");
  for (const mark of svg.querySelectorAll("[aria-description]")) mark.removeAttribute("aria-description");
  svg.setAttribute("role", "img");
  svg.setAttribute("aria-labelledby", `${id}-title`);
  svg.setAttribute("aria-describedby", `${id}-desc`);
  svg.prepend(named("title", told.title), named("desc", told.description));
  return svg;
}

/** As long as the string was watched, breaks and new strings too. */
function span(view: PlotView): [Date, Date] {
  const all = [...view.points.map((point) => point.at), ...view.breaks, ...view.fitted].map((at) => +new Date(at));
  const [from, to] = [Math.min(...all), Math.max(...all)];
  const more = Math.max(3_600_000, (to - from) * 0.02);
  return [new Date(from - more), new Date(to + more)];
}

/** One string: how far off it was found and left. */
export function stringPlot(view: PlotView, told: Told, words: { cents: string }, width: number): SVGSVGElement {
  const points = view.points.map((point) => ({ ...point, at: new Date(point.at) }));
  const single = points.filter((point) => !point.found && !point.left);
  const found = points.filter((point) => point.found);
  const left = points.filter((point) => point.left);
  const dates = (all: string[]) => all.map((at) => new Date(at));
  return picture(
    told,
    width,
    280,
    [
      axisX({ label: null, ticks: Math.max(3, Math.floor(width / 110)) }),
      axisY({ label: words.cents, labelArrow: "none", ticks: 6 }),
      ruleY([0], { stroke: "currentColor", className: "middle" }),
      ruleX(dates(view.breaks), { stroke: "currentColor", strokeDasharray: "5 3", className: "broke" }),
      ruleX(dates(view.fitted), { stroke: "currentColor", strokeDasharray: "1 3", className: "fitted" }),
      text(dates(view.breaks), { x: (at: Date) => at, text: () => "/", frameAnchor: "top", dy: -12 }),
      text(dates(view.fitted), { x: (at: Date) => at, text: () => "+", frameAnchor: "top", dy: -12 }),
      ruleX(points, {
        x: "at",
        y1: (point: { off_cents: number; u95_cents: number }) => point.off_cents - point.u95_cents,
        y2: (point: { off_cents: number; u95_cents: number }) => point.off_cents + point.u95_cents,
        stroke: "currentColor",
        strokeOpacity: 0.45,
      }),
      dot(left, { x: "at", y: "off_cents", r: 2.6, fill: "currentColor", className: "left" }),
      dot(found, { x: "at", y: "off_cents", r: 4, fill: "none", stroke: "currentColor", className: "found" }),
      dot(single, { x: "at", y: "off_cents", r: 3, symbol: "times", stroke: "currentColor", className: "single" }),
    ],
    {},
    { domain: span(view) },
  );
}

/** The air over the same time: one of its two figures. */
export function airPlot(
  view: PlotView,
  of: "temperature_c" | "humidity_percent",
  told: Told,
  width: number,
): SVGSVGElement | undefined {
  const air = view.air.filter((one: AirShown) => one[of] !== undefined);
  if (air.length === 0) return undefined;
  const read = air.map((one) => ({ at: new Date(one.at), figure: one[of] }));
  return picture(
    told,
    width,
    120,
    [
      axisX({ label: null, ticks: Math.max(3, Math.floor(width / 110)) }),
      axisY({ label: told.title, labelArrow: "none", ticks: 3 }),
      lineY(read, { x: "at", y: "figure", stroke: "currentColor" }),
      dot(read.length < 2 ? read : [], { x: "at", y: "figure", fill: "currentColor" }),
    ],
    {},
    { domain: span(view) },
  );
}

/** The moves of the months: a line through the middles, and where half of them lie. */
export function monthsPlot(
  months: MonthShown[],
  all: MonthShown[],
  told: Told,
  words: { cents: string },
  width: number,
  height: number,
): SVGSVGElement {
  const dated = (month: MonthShown) => ({ ...month, at: new Date(`${month.month}-15T00:00:00Z`) });
  const read = months.map(dated);
  const times = all.map(dated).map((month) => +month.at);
  const more = 20 * 86_400_000;
  const figures = all.flatMap((month) => [month.lower_cents, month.upper_cents, 0]);
  return picture(
    told,
    width,
    height,
    [
      axisX({ label: null, ticks: Math.max(2, Math.floor(width / 110)) }),
      axisY({ label: words.cents, labelArrow: "none", ticks: height < 200 ? 3 : 6 }),
      ruleY([0], { stroke: "currentColor", className: "middle" }),
      areaY(read, { x: "at", y1: "lower_cents", y2: "upper_cents", fill: "currentColor", fillOpacity: 0.2 }),
      lineY(read, { x: "at", y: "median_cents", stroke: "currentColor" }),
      dot(read, { x: "at", y: "median_cents", r: read.length > 60 ? 1.5 : 2.6, fill: "currentColor" }),
    ],
    { domain: [Math.min(...figures), Math.max(...figures)] },
    { domain: [new Date(Math.min(...times) - more), new Date(Math.max(...times) + more)] },
  );
}
