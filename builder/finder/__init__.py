"""Questions such as "quern 2018 switched", answered with cavity, plug, wire and grade.

Pure. The page runs the same steps in JavaScript over the same tables (`tables.page_data`);
a test asks both the same questions.
"""
