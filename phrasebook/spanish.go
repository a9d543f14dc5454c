package phrasebook

// spanish is all that the engine says, in the Spanish of the trade as it is spoken in
// the United States, in Latin America and in Spain; GLOSSARY.md lists the terms.
var spanish = [][]phrase{
	spanishJoints, spanishFact, spanishOpening, spanishPlan, spanishDecision, spanishTune, spanishService, spanishTrace,
	spanishReport, spanishPicture, spanishRulebook, spanishWords, spanishSources, spanishFields, spanishEntry, spanishCheck, spanishMeetings, spanishRefusal,
}

// spanishJoints are the ways in which the engine joins what it says.
var spanishJoints = []phrase{
	{"%s; %s", "{1}; {2}"},
	{"%s: %s", "{1}: {2}"},
	{"%s, %s", "{1}, {2}"},
	{"%s. %s", "{1}. {2}"},
	{"%s.", "{1}."},
	{"%s (%s)", "{1} ({2})"},
	{"%s or %s", "{1} o {2}"},
	{"%s and %s", "{1} y {2}"},
	{"at least %s", "al menos {1}"},
	{"at most %s", "como mucho {1}"},
	{"1 rule falls short: %s", "1 regla no se cumple: {1}"},
	{"%d rules fall short: %s", "{1} reglas no se cumplen: {2}"},
	{"1 rule is open: %s", "1 regla está abierta: {1}"},
	{"%d rules are open: %s", "{1} reglas están abiertas: {2}"},
	{"the operator stalls at %.1f degrees against %s, %.3g N·m", "el operador se para a {1} grados contra {2}, {3} N·m"},
	{"the operator stalls at %.1f degrees against %s, %.3g N·m and %s, %.3g N·m", "el operador se para a {1} grados contra {2}, {3} N·m y {4}, {5} N·m"},
	{"%s (pull side)", "{1} (lado de tirar)"},
	{"%s (push side)", "{1} (lado de empujar)"},
	{"%s (limit not confirmed)", "{1} (límite no confirmado)"},
	{"%s measured", "{1} medido"},
	{"leaf %s", "hoja {1}"},
	{"pinion %s", "piñón {1}"},
	{"shoe %s", "zapata {1}"},
	{"leaf width %s", "ancho de la hoja {1}"},
	{"leaf weight %s", "peso de la hoja {1}"},
	{"open angle %s", "ángulo de apertura {1}"},
	{"space beside the open leaf %s", "espacio junto a la hoja abierta {1}"},
	{"height over the head %s", "altura sobre el dintel {1}"},
	{"depth of the reveal %s", "profundidad del hueco {1}"},
	{"closer's power %s", "fuerza del cierrapuertas {1}"},
	{"%s not before %s (%s): %s", "{1} no antes de {2} ({3}): {4}"},
	{"%s not after %s (%s): %s", "{1} no después de {2} ({3}): {4}"},
	{"by its limits of use for leaf and closer, %s or %s would do", "por sus límites de uso para hoja y cierrapuertas servirían {!1} o {!2}"},
	{"by its limits of use for leaf and closer, %s or %s or %s would do", "por sus límites de uso para hoja y cierrapuertas servirían {!1}, {!2} o {!3}"},
	{"by its limits of use for leaf and closer, %s or %s or %s or %s would do", "por sus límites de uso para hoja y cierrapuertas servirían {!1}, {!2}, {!3} o {!4}"},
	{"%s (%.0f %%)", "{1} ({2} %)"},
	{"%s (%.0f %%, assumed)", "{1} ({2} %, supuesto)"},
	{"Reading of %s", "Lectura de {1}"},
	{"%s at %s, here %s", "{1} a {2}, aquí {3}"},
}
