/** Designs of every family by a number: most can be made, some cannot. The same number is the same design everywhere. */

/** Numbers from 0 to 1 (mulberry32 by T. Ettinger, public domain; from memory). */
function randomFrom(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 2 ** 32;
  };
}

class Chance {
  readonly next: () => number;
  constructor(seed: number) {
    this.next = randomFrom(seed);
  }
  between(least: number, most: number): number {
    return Number((least + (most - least) * this.next()).toFixed(2));
  }
  one<const T>(...things: readonly [T, ...T[]]): T {
    return things[Math.floor(this.next() * things.length)] ?? things[0];
  }
  odds(share: number): boolean {
    return this.next() < share;
  }
}

const FAMILIES = ["duct", "two-chamber", "transverse", "rim", "panpipe", "vessel", "tube vessel"] as const;

export function seededDesign(seed: number): string {
  const chance = new Chance(seed);
  const family = FAMILIES[seed % FAMILIES.length] ?? "duct";
  const head = `borewright: 1\nname: Number ${seed}\n`;
  if (family === "panpipe") return head + pipes(chance);
  if (family === "vessel" || family === "tube vessel") return head + vesselText(chance, family === "tube vessel");
  return head + tube(chance, family);
}

function pipes(chance: Chance): string {
  const rows = Array.from({ length: 1 + Math.floor(chance.between(0, 8)) }, () => {
    const diameter = chance.between(6, 18);
    return `  - { note: C5, length: ${chance.between(40, 220)}, diameter: ${diameter} }`;
  });
  return `family: panpipe\nwall: ${chance.between(1, 3)}\npipes:\n${rows.join("\n")}\n`;
}

function vesselText(chance: Chance, isTube: boolean): string {
  const length = chance.between(50, 120);
  const shape = isTube
    ? `shape: tube, length: ${length}, diameter: ${chance.between(25, 50)}`
    : `shape: ellipsoid, length: ${length}, width: ${chance.between(35, 80)}, height: ${chance.between(30, 70)}`;
  const wall = chance.between(2, 5);
  const count = Math.floor(chance.between(0, 7));
  const holes = Array.from({ length: count }, (_, i) => {
    const place = isTube
      ? `at: ${((length - 15) * (i + 1)) / (count + 1)}`
      : `angle: ${Math.round((360 * (i + 1)) / (count + 1))}`;
    return `  - { ${place}, diameter: ${chance.between(2.5, 8)}${chance.odds(0.2) ? ", raised: 1.5" : ""} }`;
  });
  const mouth = chance.odds(0.7)
    ? `window: { width: ${chance.between(6, 13)}, cutUp: ${chance.between(3, 7)} }`
    : `hole: { length: ${chance.between(7, 14)}, width: ${chance.between(7, 12)} }`;
  const whole = chance.odds(0.3) ? "solid: { halves: false }\n" : "";
  return `family: vessel\nmouth: { ${mouth} }\nvessel: { ${shape} }\nwall: ${wall}\n${count > 0 ? `holes:\n${holes.join("\n")}\n` : ""}${whole}`;
}

function tube(chance: Chance, family: "duct" | "two-chamber" | "transverse" | "rim"): string {
  const bore = chance.between(9, 24);
  const length = chance.between(180, 520);
  const wall = chance.between(1.4, 5);
  const foot =
    family === "duct" || family === "two-chamber" || chance.odds(0.5) ? bore : chance.between(0.8 * bore, 1.1 * bore);
  const at = chance.between(60, length - 30);
  const middle = bore + ((foot - bore) * at) / length;
  const joint = chance.odds(0.6) ? `  - { at: ${at}, diameter: ${middle.toFixed(3)}, joint: true }\n` : "";
  const start = family === "transverse" ? -bore : 0;
  const stations = `bore:\n  - { at: ${start}, diameter: ${bore} }\n${joint}  - { at: ${length}, diameter: ${foot} }\n`;
  const count = Math.floor(chance.between(0, 8));
  const holes = Array.from({ length: count }, (_, i) => {
    const place = 40 + ((length - 60) * (i + 0.5)) / count + chance.between(-8, 8);
    const diameter = chance.between(3, 0.75 * bore);
    const shape = chance.one(
      "",
      "",
      `, length: ${(diameter + 2).toFixed(2)}`,
      ", undercut: 0.8",
      ", raised: 2",
      `, angle: ${chance.between(-40, 40)}`,
      ", side: back",
    );
    return `  - { at: ${place.toFixed(2)}, diameter: ${diameter}${shape} }`;
  });
  const solid = chance.one(
    "",
    "",
    "solid: { base: 6 }\n",
    "solid: { rings: true, tenon: { finish: cork } }\n",
    "solid: { tenon: { finish: plain } }\n",
  );
  const scale = chance.odds(0.3) ? `print: { scale: ${chance.between(80, 130)} % }\n` : "";
  const list = count > 0 ? `holes:\n${holes.join("\n")}\n` : "";
  const stopped = chance.odds(0.1) ? "foot: stopped\n" : "";
  return `family: ${family === "two-chamber" ? "duct" : family}\nmouth:\n${mouth(chance, family, bore)}\n${stations}wall: ${wall}\n${stopped}${list}${solid}${scale}`;
}

function mouth(chance: Chance, family: "duct" | "two-chamber" | "transverse" | "rim", bore: number): string {
  const width = chance.between(0.4 * bore, 0.85 * bore);
  const window = `  window: { width: ${width}, cutUp: ${(width * chance.between(0.35, 0.55)).toFixed(2)}`;
  switch (family) {
    case "duct":
      return `${window}${chance.odds(0.2) ? ", stopper: 2" : ""} }`;
    case "two-chamber":
      return `${window}, stopper: ${chance.between(0, 5)} }\n  windway: { length: ${chance.between(12, 25)}, width: ${width}, height: ${chance.between(0.8, 1.6)} }\n  chamber: { length: ${chance.between(40, 90)}, diameter: ${chance.between(0.8 * bore, 1.1 * bore)} }\n  block: { length: ${chance.between(30, 50)}, width: ${(width + chance.between(2, 10)).toFixed(2)}, height: 12 }`;
    case "transverse":
      return `  hole: { length: ${chance.between(0.4 * bore, 0.8 * bore)}, width: ${chance.between(0.4 * bore, 0.8 * bore)}${chance.odds(0.4) ? `, chimney: ${chance.between(2, 6)}` : ""} }\n  stopper: ${bore}`;
    case "rim":
      return chance.odds(0.5)
        ? "  cover: 0.6"
        : `  cover: 0.6\n  notch: { width: ${width}, depth: ${chance.between(2, 6)} }`;
  }
}
