// Where the page begins.
import { boot } from './engine/boot.js';
import { start } from './view/main.jsx';

start(document.getElementById('page'), { engine: boot() });
if (document.querySelector('link[rel=manifest]')) navigator.serviceWorker?.register('service.js');
