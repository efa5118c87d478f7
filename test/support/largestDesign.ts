/** The largest design that somebody could mean: 100 holes, 50 fingerings, 500 measured notes. */
export function largestDesign(): string {
  const many = (count: number, item: (i: number) => string) =>
    Array.from({ length: count }, (_, i) => item(i)).join("");
  const pattern = "●".repeat(100);
  return [
    "borewright: 1\nfamily: duct\nkey: C2\nwall: 3\nmouth:\n  window: { width: 10, cutUp: 4.5 }\nbore:\n",
    many(20, (i) => `  - { at: ${i * 60}, diameter: 16.5 }\n`),
    "holes:\n",
    many(
      100,
      (i) =>
        `  - { name: H${i}, at: ${11 * i + 50}, diameter: 5.5, side: back, chimney: 4, raised: 1, undercut: 0.5 }\n`,
    ),
    "fingerings:\n",
    many(50, () => `  - { note: A4, holes: "${pattern}", register: 2 } # one\n`),
    "measured:\n",
    many(500, (i) => `  - { note: A4, holes: "${pattern}", hz: ${430 + i / 50} }\n`),
  ].join("");
}
