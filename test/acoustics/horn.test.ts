import { holdEach } from "../accuracy/hold.js";
import { hornImpedances, hornResonances } from "../accuracy/horn.js";

/** Source: the lossy horn equation integrated by scipy, test/reference/horn.json and its README. */
holdEach(hornResonances);
holdEach(hornImpedances);
