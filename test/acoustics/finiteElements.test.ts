import { finiteElementTables } from "../accuracy/finiteElements.js";
import { holdEach } from "../accuracy/hold.js";

/** Source of every number: three-dimensional finite elements, test/reference/fem-*.json and the README there. */
for (const table of finiteElementTables) holdEach(table);
