/** The page of the bore view. */
import { render } from "preact";
import { App } from "./components/App.js";
import { host } from "./host.js";
import "./view.css";

host.keep(JSON.parse(document.body.dataset.place ?? "{}"));
render(<App />, document.body);
