module swingwright

go 1.26
