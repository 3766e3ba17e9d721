import { mount } from 'svelte';
import App from './app/App.svelte';
import './style/tokens.css';
import './style/base.css';
import './style/print.css';

mount(App, { target: document.getElementById('app')! });
