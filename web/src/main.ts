import "./style.css";
import { mount } from "svelte";
import App from "./App.svelte";
import { keepOffline } from "./keep/update";
import { Page } from "./page.svelte";

const page = new Page();
page.chose();
const target = document.getElementById("page");
if (target) mount(App, { target, props: { page } });
void keepOffline((use) => (page.update = use));
