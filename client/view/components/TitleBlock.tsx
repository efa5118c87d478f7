/** The conditions that the numbers depend on. */
import type { BoreViewData } from "../../../server/src/protocol/boreView.js";

export function TitleBlock({ view }: { readonly view: BoreViewData }) {
  return (
    <dl class="title-block">
      {view.facts.map(([title, value]) => (
        <div key={title}>
          <dt>{title}</dt>
          <dd>{value}</dd>
        </div>
      ))}
    </dl>
  );
}
