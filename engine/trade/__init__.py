"""The trade's facts as data: pipe, fittings, lumber, fixtures, bits and stock, each row with its source."""
