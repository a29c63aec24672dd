// @ts-check
/** Lets the tests find the packages that the site's modules import, where the build has put them. */
import { register } from "node:module";
import { isMainThread } from "node:worker_threads";

const PACKAGES = new URL("../../site/.cache/node/package.json", import.meta.url).href;

if (isMainThread) register(import.meta.url);

/** @type {import("node:module").ResolveHook} */
export function resolve(name, context, next) {
  const isPackage = /^[a-z]/.test(name) && !name.includes(":") && context.parentURL?.includes("/docs/app/");
  return next(name, isPackage ? { ...context, parentURL: PACKAGES } : context);
}
