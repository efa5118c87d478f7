/** The page of the bore view. */
import { render } from "preact";
import { App } from "./components/App.js";
import "./view.css";

render(<App />, document.body);
