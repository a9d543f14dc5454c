package trust

import (
	"encoding/pem"
	"fmt"
	"html"
	"net"
	"net/http"
	"strings"
)

// Offer is a plain page without TLS that gives the authority's certificate and tells how to trust
// it, and nothing else. Whoever stands between phone and server could put another
// certificate there, so the page tells to compare the fingerprint with what the server's own
// terminal shows. port is that of the server with TLS.
func (a *Authority) Offer(port int) http.Handler {
	mux := http.NewServeMux()
	mux.HandleFunc("GET /{$}", func(w http.ResponseWriter, r *http.Request) {
		host := r.Host
		if name, _, err := net.SplitHostPort(host); err == nil {
			host = name
		}
		if host = strings.Trim(host, "[]"); !permitted(a.own.cert, strings.ToLower(host)) {
			http.Error(w, "this server goes by another name", http.StatusMisdirectedRequest)
			return
		}
		at := html.EscapeString(fmt.Sprintf("https://%s", net.JoinHostPort(host, fmt.Sprint(port))))
		w.Header().Set("Content-Type", "text/html; charset=utf-8")
		fmt.Fprint(w, strings.NewReplacer("FINGERPRINT", a.Fingerprint(), "ADDRESS", at).Replace(offered))
	})
	mux.HandleFunc("GET /authority.crt", func(w http.ResponseWriter, _ *http.Request) {
		w.Header().Set("Content-Type", "application/x-x509-ca-cert")
		w.Header().Set("Content-Disposition", `attachment; filename="swingwright-authority.crt"`)
		pem.Encode(w, &pem.Block{Type: "CERTIFICATE", Bytes: a.own.cert.Raw})
	})
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		h := w.Header()
		h.Set("Content-Security-Policy", "default-src 'none'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'")
		h.Set("X-Content-Type-Options", "nosniff")
		h.Set("Referrer-Policy", "no-referrer")
		h.Set("Cache-Control", "no-store")
		mux.ServeHTTP(w, r)
	})
}

// offered is the page. It needs no script and no style.
const offered = `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>Trust this server – Swingwright</title>
</head>
<body>
<main>
<section>
<h1>Trust this server</h1>
<p>The app measures with the phone's motion sensors and works without a network. Browsers allow both only from a server whose certificate the phone trusts.
This server made its own certificate authority. It can vouch for addresses of local networks and for its own names only.</p>
<ol>
<li><a href="/authority.crt" download>Get the certificate of the authority</a>.</li>
<li>Compare its SHA-256 fingerprint with the one that the terminal of the server shows. If a single digit differs, stop: somebody may stand in between.<br><code>` +
	`FINGERPRINT</code></li>
<li>Let the phone trust it.
<ul>
<li>iPhone, iPad: open what was downloaded; Settings, General, VPN &amp; Device Management, install the profile; then Settings, General, About, Certificate Trust Settings, switch it on.</li>
<li>Android: Settings, Security, Encryption &amp; credentials, Install a certificate, CA certificate, and choose what was downloaded. Words differ from maker to maker.</li>
<li>A laptop: open it with the certificates of the system or of the browser, and trust it for web sites.</li>
</ul></li>
<li>Go to <a href="ADDRESS">ADDRESS</a> and sign in.</li>
</ol>
<p>Take it out again, the same way, when the phone has no more work to do here.</p>
</section>
<section lang="es">
<h2>Confiar en este servidor</h2>
<p>La aplicación mide con los sensores de movimiento del teléfono y funciona sin red. Los navegadores solo permiten ambas cosas desde un servidor en cuyo certificado
confía el teléfono. Este servidor hizo su propia autoridad de certificación. Solo puede responder por direcciones de redes locales y por sus propios nombres.</p>
<ol>
<li><a href="/authority.crt" download>Obtener el certificado de la autoridad</a>.</li>
<li>Comparar su huella SHA-256 con la que muestra el terminal del servidor. Si difiere una sola cifra, parar: alguien puede estar en medio.<br><code>FINGERPRINT</code></li>
<li>Hacer que el teléfono confíe en ella.
<ul>
<li>iPhone, iPad: abrir lo descargado; Ajustes, General, VPN y gestión de dispositivos, instalar el perfil; después Ajustes, General, Información, Ajustes de confianza de los certificados, activarlo.</li>
<li>Android: Ajustes, Seguridad, Cifrado y credenciales, Instalar un certificado, Certificado de CA, y elegir lo descargado. Las palabras cambian según el fabricante.</li>
<li>Un portátil: abrirlo con los certificados del sistema o del navegador, y confiar en él para sitios web.</li>
</ul></li>
<li>Ir a <a href="ADDRESS">ADDRESS</a> e iniciar sesión.</li>
</ol>
<p>Quitarlo de la misma manera cuando el teléfono ya no tenga trabajo aquí.</p>
</section>
</main>
</body>
</html>
`
