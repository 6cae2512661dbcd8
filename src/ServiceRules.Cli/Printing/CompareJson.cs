using System.Globalization;
using System.Text;
using System.Text.Encodings.Web;
using System.Text.Json;
using ServiceRules.Application.Comparing;
using ServiceRules.Application.Filed;
using ServiceRules.Domain.Verdicts;

namespace ServiceRules.Cli.Printing;

/// <summary>
/// What would change, for other programs: one line of JSON with what the folders say differently, one for each record that
/// comes out otherwise, one with the totals.
/// </summary>
internal static class CompareJson
{
    public static string Of(IEnumerable<FolderChange> changes) =>
        Line(json =>
        {
            json.WriteStartArray("changes");
            foreach (var change in changes)
            {
                Write(json, change);
            }

            json.WriteEndArray();
        });

    public static string Of(RecordCompared compared) =>
        Line(json =>
        {
            var record = compared.Record;
            json.WriteString("record", record.Id.Text);
            json.WriteString("file", compared.File);
            json.WriteString("date", record.Date.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture));
            json.WriteString("machine", record.Machine.Id.Text);
            if (record.Machine.Area is { } area)
            {
                json.WriteString("area", area);
            }

            json.WriteString("was", Word(compared.Was?.Job.Disposition));
            json.WriteString("wouldBe", Word(compared.WouldBe?.Job.Disposition));
            Write(json, "missingSheets", compared.MissingSheets);
            json.WriteStartArray("flips");
            foreach (var flip in compared.Flips)
            {
                Write(json, flip);
            }

            json.WriteEndArray();
        });

    public static string Of(ComparedTotals totals, FilesRead files) =>
        Line(json =>
        {
            json.WriteStartObject("totals");
            json.WriteNumber("records", totals.Records);
            json.WriteNumber("changed", totals.Changed);
            json.WriteNumber("flips", totals.Flips);
            json.WriteNumber("filesNotUsed", files.Problems.Length);
            Write(
                json,
                "jobs",
                totals.Jobs.Select(one => ($"{Word(one.Was)} -> {Word(one.WouldBe)}", one.Jobs))
            );
            Write(json, "byRule", totals.ByRule.Select(one => (one.Key, one.Value.Flips)));
            Write(json, "byCause", totals.ByCause.Select(one => (Kebab(one.Key.ToString()), one.Value)));
            Write(json, "byKindOfUnit", totals.BySheet.Select(one => (one.Key, one.Value)));
            Write(json, "byGauge", totals.ByGauge.Select(one => (one.Key, one.Value)));
            Write(json, "byArea", totals.ByArea.Select(one => (one.Key, one.Value)));
            json.WriteEndObject();
        });

    private static void Write(Utf8JsonWriter json, FolderChange change)
    {
        json.WriteStartObject();
        json.WriteString("kind", Kebab(change.Kind.ToString()));
        json.WriteString("of", change.Of);
        if (change.Quantity is { } quantity)
        {
            json.WriteString("quantity", Kebab(quantity.ToString()));
        }

        json.WriteStartArray("parts");
        foreach (var part in change.Parts)
        {
            json.WriteStartObject();
            json.WriteString("where", part.Where);
            if (part.Old is not null)
            {
                json.WriteString("old", part.Old);
            }

            if (part.New is not null)
            {
                json.WriteString("new", part.New);
            }

            json.WriteEndObject();
        }

        json.WriteEndArray();
        json.WriteEndObject();
    }

    private static void Write(Utf8JsonWriter json, Flip flip)
    {
        json.WriteStartObject();
        json.WriteString("rule", flip.Rule);
        json.WriteString("subject", flip.Subject.Key);
        Write(json, "was", flip.Was);
        Write(json, "wouldBe", flip.WouldBe);
        Write(json, "kindsOfUnit", flip.Sheets);
        Write(json, "gauges", flip.Gauges);
        json.WriteStartArray("causes");
        foreach (var cause in flip.Causes)
        {
            json.WriteStartObject();
            json.WriteString("kind", Kebab(cause.Kind.ToString()));
            json.WriteBoolean("alone", cause.IsAlone);
            json.WriteStartArray("changes");
            foreach (var change in cause.Changes)
            {
                Write(json, change);
            }

            json.WriteEndArray();
            json.WriteEndObject();
        }

        json.WriteEndArray();
        json.WriteEndObject();
    }

    private static void Write(Utf8JsonWriter json, string name, Finding? finding)
    {
        if (finding is null)
        {
            return;
        }

        json.WriteStartObject(name);
        json.WriteString("verdict", Kebab(finding.Verdict.ToString()));
        json.WriteString("effect", Kebab(finding.Effect.ToString()));
        json.WriteString("statement", finding.Statement);
        if (finding.LetOut is { } letOut)
        {
            json.WriteString("letOut", letOut);
        }

        json.WriteEndObject();
    }

    private static void Write(Utf8JsonWriter json, string name, IEnumerable<string> texts)
    {
        json.WriteStartArray(name);
        foreach (var text in texts)
        {
            json.WriteStringValue(text);
        }

        json.WriteEndArray();
    }

    private static void Write(Utf8JsonWriter json, string name, IEnumerable<(string Name, int Count)> counts)
    {
        json.WriteStartObject(name);
        foreach (var (of, count) in counts)
        {
            json.WriteNumber(of, count);
        }

        json.WriteEndObject();
    }

    private static string Line(Action<Utf8JsonWriter> write)
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
            write(json);
            json.WriteEndObject();
        }

        return Encoding.UTF8.GetString(bytes.ToArray());
    }

    private static string Word(Disposition? disposition) =>
        disposition is { } one ? Kebab(one.ToString()) : "cannot-be-judged";

    private static string Kebab(string pascal) => JsonNamingPolicy.KebabCaseLower.ConvertName(pascal);
}
