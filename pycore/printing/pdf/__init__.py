"""The print file as a PDF: one page at true size, its picture, its marks and its letters."""
