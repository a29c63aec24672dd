// @ts-check
/** How the JavaScript of the site and its tests is linted. TypeScript finds unknown and unused names, so those rules are off. */
import { createRequire } from "node:module";

const require = createRequire(new URL(".cache/checks/package.json", import.meta.url));
const { configs } = require("@eslint/js");

const TEXT_ONLY = "Text goes in as textContent: nothing that a person typed or a file holds may become an element.";

export default [
  configs.recommended,
  {
    rules: {
      "no-undef": "off", // TypeScript knows every name
      "no-unused-vars": "off", // so does it know whether it is used
      complexity: ["error", 12],
      curly: ["error", "multi-line"],
      eqeqeq: "error",
      "max-lines": ["error", 400],
      "max-lines-per-function": ["error", 60],
      "max-params": ["error", 5],
      "no-eval": "error",
      "no-implied-eval": "error",
      "no-new-func": "error",
      "no-nested-ternary": "error",
      "no-shadow": "error",
      "no-var": "error",
      "object-shorthand": "error",
      "prefer-const": "error",
      "prefer-template": "error",
      "no-restricted-syntax": [
        "error",
        {
          selector: "MemberExpression[property.name=/^(innerHTML|outerHTML|insertAdjacentHTML)$/]",
          message: TEXT_ONLY,
        },
        {
          selector: "CallExpression[callee.object.name='document'][callee.property.name=/^write/]",
          message: TEXT_ONLY,
        },
      ],
    },
  },
  {
    files: ["**/docs/app/*.js", "**/sw.js"],
    rules: { "no-console": "error" }, // a page speaks to the person, in the page
  },
  {
    files: ["**/tests/javascript/*.js"],
    rules: { "max-lines-per-function": "off" }, // a group of tests is one function
  },
];
