/** Where a tube that is too long may be split: clear of its holes. */

import { t } from "../../words/translation.js";
import type { TubePart } from "../making/joints.js";
import { jointClearanceOf } from "../making/makerLimits.js";
import type { Making } from "../making/making.js";
import { jointRoom, tenonLength } from "../making/solidLengths.js";
import { openingsAlong, roomBeside } from "./holeRoom.js";

export interface SplitPlace {
  /** In the file's units, as a station's `at` would say it. */
  readonly at: number;
  /** `, between L3 and R1`. */
  readonly between: string;
}

/** No flute has more parts than this. */
const MOST_PARTS = 6;
/** Steps in which places are tried, in file units: whole millimetres, or twentieths of an inch. */
const STEP = { mm: 1, in: 0.05 } as const;

/**
 * Fewest parts none of which is longer than `longest` mm on the bed, split where there is most room; undefined where holes leave
 * no room for the joints.
 */
export function splitPlaces(making: Making, part: TubePart, longest: number): readonly SplitPlace[] | undefined {
  const most = longest / making.laidUnit;
  const fewest = Math.ceil((part.to - part.from) / most);
  const clear = clearPlaces(making, part);
  for (let count = Math.max(2, fewest); count <= MOST_PARTS; count++) {
    const places = placesOf(count, most, part, clear, making);
    if (places !== undefined) return places.map((at) => ({ at, between: between(making, at) }));
  }
  return undefined;
}

interface ClearPlace {
  readonly at: number;
  /** Distance to the nearest opening's edge or end of the part, mm. */
  readonly room: number;
  /** Of the tenon that reaches up from here, and the least body above that holds its socket; in file units. */
  readonly tenon: number;
  readonly socket: number;
}

/** One place after the other, each so that the parts still to come can reach the end. */
function placesOf(
  count: number,
  most: number,
  { from, to, tenon }: TubePart,
  clear: readonly ClearPlace[],
  { finishedUnit }: Making,
) {
  const places: ClearPlace[] = [];
  for (let left = count - 1; left > 0; left--) {
    const last = places.at(-1);
    const [tip, body] = last === undefined ? [from, from + tenon] : [last.at - last.tenon, last.at];
    const window = clear.filter(
      (p) => p.at - body >= p.socket && p.at - tip <= most && to - p.at + left * p.tenon <= left * most,
    );
    const room = (p: ClearPlace) => Math.min(p.room, (p.at - body) * finishedUnit);
    const roomiest = window.reduce<ClearPlace | undefined>(
      (best, p) => (best && room(best) >= room(p) ? best : p),
      undefined,
    );
    if (roomiest === undefined) return undefined;
    places.push(roomiest);
  }
  return places.map(({ at }) => at);
}

/** Places along the part where no hole is closer than a joint allows. */
function clearPlaces(making: Making, { from, to, tenon }: TubePart): readonly ClearPlace[] {
  const { draft, finishedUnit } = making;
  const clearance = jointClearanceOf(draft)?.mm;
  if (clearance === undefined) return [];
  const openings = openingsAlong(making);
  const step = STEP[draft.unit];
  const places: ClearPlace[] = [];
  // A joint this near to the end would leave no real part.
  const [first, last] = [from + tenon, to - clearance / finishedUnit];
  for (let n = 0; n < MOST_PLACES; n++) {
    const at = Number(((Math.ceil(first / step) + n) * step).toFixed(2));
    if (!(at <= last)) break;
    const ends = Math.min(at - from - tenon, to - at) * finishedUnit;
    const rooms = openings.flatMap((opening) => roomBeside(making, at, opening) ?? []);
    if (!rooms.every(({ gap, wants }) => gap >= wants)) continue;
    const length = tenonLength(draft, at);
    const socket = Math.max(length, (jointRoom(draft, at, finishedUnit)?.upstream ?? 0) / finishedUnit);
    places.push({ at, room: Math.min(ends, ...rooms.map(({ gap }) => gap)), tenon: length, socket });
  }
  return places;
}

/** Longer tubes are typing errors. */
const MOST_PLACES = 5000;

function between(making: Making, at: number): string {
  const openings = [...openingsAlong(making)].sort((a, b) => a.at - b.at);
  const place = at * making.finishedUnit;
  const above = openings.findLast((opening) => opening.at < place)?.beside;
  const below = openings.find((opening) => opening.at > place)?.name;
  if (above !== undefined && below !== undefined) return t`, between ${above} and ${below}`;
  if (above !== undefined) return t`, below ${above}`;
  return below === undefined ? "" : t`, above ${below}`;
}
