/** The page of the panel: a frame for what the bundle builds. Nothing in it comes from a car's text. */

export interface PageParts {
  /** Where the editor serves the extension's own files from: the only source of styles. */
  readonly source: string;
  readonly script: string;
  readonly style: string;
  /** New for each page: only the script with it runs. */
  readonly nonce: string;
}

const escaped = (text: string): string => text.replace(/[&<>"']/g, (sign) => `&#${String(sign.charCodeAt(0))};`);

/** Everything that is not named is forbidden: no pictures, no fonts, no connections, no frames, nothing inline. */
const policy = ({ source, nonce }: PageParts): string =>
  [
    `default-src 'none'`,
    `script-src 'nonce-${nonce}'`,
    `style-src ${source}`,
    `base-uri 'none'`,
    `form-action 'none'`,
  ].join('; ');

export const pageHtml = (parts: PageParts): string => `<!DOCTYPE html>
<html lang="en">
  <head>
    <meta charset="utf-8" />
    <meta http-equiv="Content-Security-Policy" content="${escaped(policy(parts))}" />
    <meta name="viewport" content="width=device-width, initial-scale=1" />
    <title>The car</title>
    <link rel="stylesheet" href="${escaped(parts.style)}" />
  </head>
  <body>
    <div id="view"></div>
    <script nonce="${escaped(parts.nonce)}" src="${escaped(parts.script)}"></script>
  </body>
</html>
`;
