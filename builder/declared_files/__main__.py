"""Write every declared file whose text is not that of its declaration."""

from __future__ import annotations

from builder.declared_files.files import declared_texts

if __name__ == "__main__":
    for path, text in declared_texts().items():
        if path.read_text("utf-8") != text:
            path.write_text(text, "utf-8")
            print(f"{path} is written anew")
