// The language server with a client that is not ours: the protocol's own library frames the messages, and its own types say
// of each answer whether it is one. Every recipe of the demo book is opened and asked about at every word.
import assert from "node:assert/strict";
import { spawn } from "node:child_process";
import { readdirSync, readFileSync } from "node:fs";
import { test } from "node:test";
import { pathToFileURL } from "node:url";
import protocol from "vscode-languageserver-protocol/node.js";

const { StreamMessageReader, StreamMessageWriter, createProtocolConnection, ResponseError } = protocol;
const book = `${process.env.JARFUL_SOURCE_DIR}/recipes`;

const all = (is) => (value) => Array.isArray(value) && value.every((one) => is(one));
const or_null = (is) => (value) => value === null || is(value);
const uinteger = (value) => Number.isInteger(value) && value >= 0;
/** What an answer has to be, by the protocol's own types where they have a check. */
const forms = {
  "textDocument/codeAction": all(protocol.CodeAction.is),
  "textDocument/formatting": or_null(all(protocol.TextEdit.is)),
  "textDocument/inlayHint": all(protocol.InlayHint.is),
  "textDocument/codeLens": all(protocol.CodeLens.is),
  "textDocument/documentSymbol": all(protocol.DocumentSymbol.is),
  "textDocument/foldingRange": all(protocol.FoldingRange.is),
  "textDocument/semanticTokens/full": (value) => protocol.SemanticTokens.is(value) && value.data.length % 5 === 0 && value.data.every(uinteger),
  "textDocument/hover": or_null(protocol.Hover.is),
  "textDocument/completion": (value) => typeof value.isIncomplete === "boolean" && value.items.every((item) =>
    typeof item.label === "string" && protocol.TextEdit.is(item.textEdit) && Number.isInteger(item.kind)
    && (item.documentation === undefined || protocol.MarkupContent.is(item.documentation))),
  "textDocument/signatureHelp": or_null((value) => value.signatures.length > 0 && uinteger(value.activeParameter)),
  "textDocument/definition": or_null(protocol.Location.is),
  "textDocument/references": or_null(all(protocol.Location.is)),
  "textDocument/documentHighlight": or_null(all((one) => protocol.Range.is(one.range) && [1, 2, 3].includes(one.kind))),
};
const without_position = Object.keys(forms).slice(0, 7);
const with_position = Object.keys(forms).slice(7);

function connect() {
  const child = spawn(process.env.JARFUL_PROGRAM, ["language-server", "--stdio"], { cwd: book, stdio: ["pipe", "pipe", "inherit"] });
  const connection = createProtocolConnection(new StreamMessageReader(child.stdout), new StreamMessageWriter(child.stdin));
  const published = new Map();
  connection.onNotification("textDocument/publishDiagnostics", (params) => {
    assert.ok(all(protocol.Diagnostic.is)(params.diagnostics), JSON.stringify(params));
    published.set(params.uri, params.diagnostics);
  });
  connection.listen();
  const ended = new Promise((resolve) => child.on("exit", resolve));
  return { connection, published, ended };
}

const capabilities = {
  general: { positionEncodings: ["utf-16"] },
  textDocument: {
    publishDiagnostics: { relatedInformation: true },
    documentSymbol: { hierarchicalDocumentSymbolSupport: true },
    completion: { completionItem: { snippetSupport: true } },
  },
};

test("every answer about the demo book is what the protocol says", async () => {
  const { connection, published, ended } = connect();
  const { capabilities: can } = await connection.sendRequest("initialize", { processId: process.pid, rootUri: null, capabilities });
  assert.equal(can.positionEncoding, "utf-16");
  await connection.sendNotification("initialized", {});
  const types = can.semanticTokensProvider.legend.tokenTypes.length;
  let asked = 0;
  for (const name of readdirSync(book).filter((one) => one.endsWith(".jarful"))) {
    const text = readFileSync(`${book}/${name}`, "utf8");
    const uri = pathToFileURL(`${book}/${name}`).href;
    await connection.sendNotification("textDocument/didOpen", { textDocument: { uri, languageId: "jarful", version: 1, text } });
    const lines = text.split("\n");
    const document = { textDocument: { uri }, context: { diagnostics: [], includeDeclaration: true }, options: {},
      range: { start: { line: 0, character: 0 }, end: { line: lines.length, character: 0 } } };
    const ask = async (method, more = {}) => {
      const value = await connection.sendRequest(method, { ...document, ...more });
      asked += 1;
      assert.ok(forms[method](value), `${name}, ${method} ${JSON.stringify(more)}: ${JSON.stringify(value)}`);
      return value;
    };
    for (const method of without_position) {
      const value = await ask(method);
      if (method.startsWith("textDocument/semanticTokens")) assert.ok(value.data.every((one, i) => i % 5 !== 3 || one < types));
    }
    for (let line = 0; line < lines.length; line += 3)
      for (const { index } of lines[line].matchAll(/[\p{L}\d_]+/gu))
        for (const method of with_position) await ask(method, { position: { line, character: index + 1 } });
  }
  assert.ok(asked > 1000);
  // The demo book is sound and tidy.
  assert.deepEqual([...published.values()].flat(), []);
  await connection.sendRequest("shutdown");
  await connection.sendNotification("exit");
  assert.equal(await ended, 0);
  connection.dispose();
});

test("another name is a change of files, or an error with a sentence", async () => {
  const { connection, ended } = connect();
  await connection.sendRequest("initialize", { processId: null, rootUri: null,
    capabilities: { workspace: { workspaceEdit: { documentChanges: true } } } });
  const uri = pathToFileURL(`${book}/winter-kraut.jarful`).href;
  const asked = { textDocument: { uri }, position: { line: 5, character: 8 } };
  const edit = await connection.sendRequest("textDocument/rename", { ...asked, newName: "white_cabbage" });
  assert.ok(protocol.WorkspaceEdit.is(edit), JSON.stringify(edit));
  assert.ok(edit.documentChanges.length >= 1);
  await assert.rejects(connection.sendRequest("textDocument/rename", { ...asked, newName: "salt" }), ResponseError);
  await connection.sendRequest("shutdown");
  await connection.sendNotification("exit");
  assert.equal(await ended, 0);
  connection.dispose();
});
