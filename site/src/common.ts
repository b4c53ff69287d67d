// On every page: what it takes to work without a network. A page has one script; those with more to
// do take this in.

import { keepForOffline } from "./site";

keepForOffline();
