/** Inside the panel. */
import './view.css';
