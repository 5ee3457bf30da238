"""The YAML language server that editors run, spoken to over its standard input and output."""

from __future__ import annotations

import json
import subprocess
from pathlib import Path
from typing import Any

from shipped_book import ROOT

SERVER = ROOT / ".venv/checkers/node_modules/yaml-language-server/bin/yaml-language-server"
SETTINGS = {
    "validate": True,
    "hover": True,
    "completion": True,
    # Nothing is fetched: a record names the schema beside it.
    "schemaStore": {"enable": False},
}
Message = dict[str, Any]


class LanguageServer:
    """One running server. Lines and columns count from 0, as the protocol counts them."""

    def __init__(self, folder: Path) -> None:
        """Start it on `folder`."""
        command = ["node", str(SERVER), "--stdio"]
        self._process = subprocess.Popen(command, stdin=subprocess.PIPE, stdout=subprocess.PIPE)
        self._number = 0
        self._findings: dict[str, list[Message]] = {}
        able = {"workspace": {"configuration": True}}
        root = folder.as_uri()
        place = [{"uri": root, "name": "book"}]
        self._ask(
            "initialize",
            {"processId": None, "rootUri": root, "capabilities": able, "workspaceFolders": place},
        )
        self._tell("initialized", {})

    def close(self) -> None:
        """End it."""
        self._process.terminate()
        self._process.wait()
        for stream in (self._process.stdin, self._process.stdout):
            if stream:
                stream.close()

    def open(self, path: Path, text: str | None = None) -> str:
        """Open a file, or `text` beside it; return the name to ask about it by.

        Each gets a name of its own in the file's folder, so that no finding is of an older text.
        """
        self._number += 1
        uri = path.with_name(f"{path.stem}-{self._number}.yaml").as_uri()
        text = path.read_text("utf-8") if text is None else text
        document = {"uri": uri, "languageId": "yaml", "version": self._number, "text": text}
        self._tell("textDocument/didOpen", {"textDocument": document})
        return uri

    def hover(self, uri: str, line: int, column: int) -> str:
        """What is shown when a pointer rests there; nothing is ""."""
        answer = self._ask("textDocument/hover", _place(uri, line, column))
        return str(answer["contents"]["value"]) if answer else ""

    def proposals(self, uri: str, line: int, column: int) -> dict[str, str]:
        """What is proposed there: the words, each with its explanation."""
        answer = self._ask("textDocument/completion", _place(uri, line, column))
        return {item["label"]: _words(item.get("documentation", "")) for item in answer["items"]}

    def findings(self, uri: str) -> list[tuple[int, str]]:
        """What the editor underlines: line and message, once the server has said it."""
        while uri not in self._findings:
            self._take(self._receive())
        return [(one["range"]["start"]["line"], one["message"]) for one in self._findings[uri]]

    def _ask(self, method: str, parameters: Message) -> Any:
        self._number += 1
        number = self._number
        self._send({"id": number, "method": method, "params": parameters})
        while True:
            message = self._receive()
            if message.get("id") == number and "method" not in message:
                assert "error" not in message, message
                return message["result"]
            self._take(message)

    def _tell(self, method: str, parameters: Message) -> None:
        self._send({"method": method, "params": parameters})

    def _take(self, message: Message) -> None:
        """Keep findings, answer the server's own questions, pass over the rest."""
        if message["method"] == "textDocument/publishDiagnostics":
            self._findings[message["params"]["uri"]] = message["params"]["diagnostics"]
        elif "id" in message:
            asked = message.get("params", {}).get("items", [])
            given = [SETTINGS if item.get("section") == "yaml" else None for item in asked]
            self._send({"id": message["id"], "result": given or None})

    def _send(self, message: Message) -> None:
        assert self._process.stdin
        body = json.dumps({"jsonrpc": "2.0", **message}).encode()
        self._process.stdin.write(b"Content-Length: %d\r\n\r\n%s" % (len(body), body))
        self._process.stdin.flush()

    def _receive(self) -> Message:
        stream = self._process.stdout
        assert stream
        length = 0
        while line := stream.readline().strip():
            name, _, value = line.partition(b":")
            length = int(value) if name.lower() == b"content-length" else length
        assert length, "the language server ended"
        message: Message = json.loads(stream.read(length))
        return message


def _place(uri: str, line: int, column: int) -> Message:
    return {"textDocument": {"uri": uri}, "position": {"line": line, "character": column}}


def _words(documentation: str | Message) -> str:
    return documentation if isinstance(documentation, str) else str(documentation["value"])
