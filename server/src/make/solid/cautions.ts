/** What a maker must be told wherever a printed instrument is handed over. Common practice; local rules and data sheets decide. */

export const PRINT_AS_IT_IS =
  "Print at 100 %, with no compensation of holes or shrinkage in the slicer: the file is the design times its print scale, and the prediction has shrinkage and undersize in it already.";

export function cautions({ hasSmallParts }: { readonly hasSmallParts: boolean }): readonly string[] {
  return [
    "It touches the mouth: take plain filament that its maker sells for food contact and follow its data sheet; seal the lip area with a coating meant for such use.",
    "Layers hold germs: wash it warm, not hot (PLA softens near 55 °C), let it dry, and do not share it unwashed.",
    "Take off strings and burrs, and break sharp edges, before it comes near lips. Wear a mask and eye protection when sanding or cutting.",
    "Ventilate while printing, gluing and coating: heed the safety data sheets of filament, glue and finish.",
    ...(hasSmallParts
      ? [
          "Small parts can be swallowed: fix block, plug and stoppers for good, and keep loose ones from small children.",
        ]
      : []),
    "Checked for its geometry, not for its strength. Local rules and qualified advice go before this list.",
  ];
}
