"""From typed records and plans to pages: view models, templates, drawings, shell, writing."""
