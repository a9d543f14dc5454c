# Writes hospital.xlsx, an invented door schedule with what spread-sheets of owners
# have: a merged title, groups over headings, buildings merged down, formulas, units
# in number formats, fractions, dates, a legend on a sheet of its own.
import datetime
import sys

import openpyxl

book = openpyxl.Workbook()
sheet = book.active
sheet.title = "Level 1"
sheet["A1"] = "ST. BRENDAN HOSPITAL - DOORS"
sheet.merge_cells("A1:J1")
sheet["A2"] = "identification"
sheet.merge_cells("A2:C2")
sheet["D2"] = "door"
sheet.merge_cells("D2:F2")
sheet["G2"] = "frame"
sheet.merge_cells("G2:H2")
sheet["I2"] = "fire"
heads = ["Door No.", "Bldg", "Room name", "Width", "Height", "Thickness", "Width", "Material", "Rating (min)", "Surveyed"]
for i, h in enumerate(heads):
    sheet.cell(3, i + 1, h)
rows = [
    ["101", "East", "Ward", 914, 2134, 45, 930, "HM", 90, datetime.date(2026, 3, 14)],
    ["102", None, "Ward", 914, 2134, 45, 930, "HM", 0, datetime.date(2026, 3, 14)],
    ["103", None, "Sluice", 1067, 2134, 45, 1083, "HM", "N/A", None],
    ["104", "West", "Chapel", None, 2134, 45, 930, "WD", 20, None],
]
for r, row in enumerate(rows):
    for c, value in enumerate(row):
        cell = sheet.cell(r + 4, c + 1, value)
        if c in (3, 4):
            cell.number_format = '0" mm"'
sheet.merge_cells("B4:B6")
sheet["D7"] = "=D4+153"
sheet["A9"] = "TOTAL"
sheet["E9"] = "=COUNTA(A4:A7)"
second = book.create_sheet("Level 2")
second.append(["Door No.", "Leaf width (in)", "Leaf height (in)", "Remarks"])
second.append(["201", 35.75, 83.75, "=SUM(1,2)"])
second.append(["007", 33.6875, 79.25, None])
second["B2"].number_format = "# ?/?"
second["D2"].data_type = "s"
legend = book.create_sheet("Legend")
legend.append(["HM", "hollow metal"])
legend.append(["WD", "wood"])
book.save(sys.argv[1] if len(sys.argv) > 1 else "hospital.xlsx")
