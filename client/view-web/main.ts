/** Inside the panel: begins when the page stands. */
import { readToView, saysModel } from '../view/messages';
import { App } from './app';
import './view.css';
import { readKept, type Kept } from './state';

/** What the editor gives to a page in a panel, once. */
interface Api {
  postMessage(message: unknown): void;
  getState(): unknown;
  setState(state: Kept): void;
}
const UNREAD = 'The newest picture of the car cannot be read: what is shown here is older than the text.';
declare function acquireVsCodeApi(): Api;

const api = acquireVsCodeApi();
const app = new App(document.getElementById('view') ?? document.body, {
  send: (message) => {
    api.postMessage(message);
  },
  keep: (kept) => {
    api.setState(kept);
  },
  kept: readKept(api.getState()),
});
addEventListener('message', (event) => {
  const message = readToView(event.data);
  if (message) app.receive(message);
  // What is on the picture is no more what is written: nobody may take it for that.
  else if (saysModel(event.data)) app.receive({ type: 'trouble', text: UNREAD });
});
api.postMessage({ type: 'ready' });
