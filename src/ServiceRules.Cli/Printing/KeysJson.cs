using System.Security.Cryptography;
using System.Security.Cryptography.X509Certificates;
using System.Text;
using System.Text.Encodings.Web;
using System.Text.Json;
using ServiceRules.Domain.Timeline;
using ServiceRules.Reporting.Revocation;

namespace ServiceRules.Cli.Printing;

/// <summary>The keys of this machine, for other programs: one line of JSON.</summary>
internal static class KeysJson
{
    public static string Of(
        IEnumerable<(string State, X509Certificate2 Certificate, RevokedCertificate? Revoked)> keys
    )
    {
        using var bytes = new MemoryStream();
        using (
            var json = new Utf8JsonWriter(
                bytes,
                new() { Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping }
            )
        )
        {
            json.WriteStartObject();
            json.WriteStartArray("keys");
            foreach (var (state, certificate, revoked) in keys)
            {
                json.WriteStartObject();
                json.WriteString("state", state);
                json.WriteString("subject", certificate.Subject);
                json.WriteString("sha256", Convert.ToHexStringLower(SHA256.HashData(certificate.RawData)));
                json.WriteString("validFrom", UtcTime.Stamp(certificate.NotBefore));
                json.WriteString("validUntil", UtcTime.Stamp(certificate.NotAfter));
                if (revoked is not null)
                {
                    json.WriteStartObject("revoked");
                    json.WriteString("from", UtcTime.Stamp(revoked.From));
                    json.WriteString("reason", revoked.ReasonTold);
                    json.WriteEndObject();
                }

                json.WriteEndObject();
            }

            json.WriteEndArray();
            json.WriteEndObject();
        }

        return Encoding.UTF8.GetString(bytes.ToArray());
    }
}
