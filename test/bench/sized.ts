/** A design of so many holes and fingerings: holes evenly along a bore of 600 mm, opened one after another from the foot; every other fingering in the second register. */
export function sized(holes: number, fingerings: number, stations = 2): string {
  const step = 540 / holes;
  const diameter = Math.min(6, 0.6 * step).toFixed(2);
  const rows = Array.from({ length: fingerings }, (_, i) => {
    const open = Math.round((i * holes) / (fingerings - 1));
    const covers = "●".repeat(holes - open) + "○".repeat(open);
    return `  - { degree: ${1 + (i % 14)}, holes: ${covers}, register: ${1 + (i % 2)} }`;
  });
  const places = Array.from(
    { length: holes },
    (_, i) => `  - { name: H${i}, at: ${(50 + i * step).toFixed(3)}, diameter: ${diameter} }`,
  );
  const bore = Array.from({ length: stations }, (_, i) => {
    const share = i / (stations - 1);
    return `{ at: ${(600 * share).toFixed(3)}, diameter: ${(16 + 0.8 * share).toFixed(4)} }`;
  });
  return `borewright: 1
family: duct
key: C4
mouth: { window: { width: 10, cutUp: 4.5 } }
wall: 3
bore: [ ${bore.join(", ")} ]
holes:
${places.join("\n")}
fingerings:
${rows.join("\n")}
`;
}
