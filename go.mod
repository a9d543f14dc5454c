module swingwright

go 1.26

require (
	cel.dev/cel-go v0.33.2 // indirect
	github.com/santhosh-tekuri/jsonschema/v6 v6.0.3 // indirect
	go.yaml.in/yaml/v4 v4.0.0 // indirect
	golang.org/x/text v0.22.0 // indirect
	pgregory.net/rapid v1.3.0 // indirect
)
