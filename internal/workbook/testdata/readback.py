# Reads a workbook with openpyxl and tells what stands in it.
import json
import sys

import openpyxl

sheets = []
for s in openpyxl.load_workbook(json.load(sys.stdin)).worksheets:
    rows = list(s.iter_rows())
    titles = s.print_title_rows
    sheets.append({
        "Name": s.title,
        "Freeze": s.freeze_panes,
        "Titles": titles,
        "Orientation": s.page_setup.orientation,
        "FitWidth": s.page_setup.fitToWidth,
        "FitHeight": s.page_setup.fitToHeight,
        "FitToPage": bool(s.sheet_properties.pageSetUpPr.fitToPage),
        "Widths": [s.column_dimensions[openpyxl.utils.get_column_letter(i + 1)].width for i in range(s.max_column)],
        "Cells": [[c.value for c in r] for r in rows],
        "Types": [[c.data_type for c in r] for r in rows],
        "Formats": [c.number_format for c in rows[1]] if len(rows) > 1 else [],
        "Bold": [bool(r[0].font.b) for r in rows],
    })
json.dump(sheets, sys.stdout)
