using System.Text;
using System.Text.Encodings.Web;
using System.Text.Json;
using ServiceRules.Application.Reports;
using ServiceRules.Domain.Timeline;

namespace ServiceRules.Cli.Printing;

/// <summary>How a report stands, for other programs: one line of JSON.</summary>
internal static class StandingJson
{
    public static string Of(VerifiedReport report, string name)
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
            json.WriteString("file", name);
            json.WriteString("standing", ReportWords.Of(report.Standing));
            json.WriteStartArray("points");
            foreach (var point in report.Points)
            {
                Write(json, point);
            }

            json.WriteEndArray();
            if (report.Signer is { } signer)
            {
                json.WriteString("signer", signer);
            }

            Write(json, "statedTime", report.SignedAt);
            Write(json, "provenTime", report.TrustedTime);

            json.WriteEndObject();
        }

        return Encoding.UTF8.GetString(bytes.ToArray());
    }

    private static void Write(Utf8JsonWriter json, string name, DateTimeOffset? at)
    {
        if (at is { } time)
        {
            json.WriteString(name, UtcTime.Stamp(time));
        }
    }

    private static void Write(Utf8JsonWriter json, ReportPoint point)
    {
        json.WriteStartObject();
        json.WriteString("name", point.Name);
        json.WriteString("result", ReportWords.Of(point.Result));
        json.WriteString("told", point.Told);
        json.WriteEndObject();
    }
}
