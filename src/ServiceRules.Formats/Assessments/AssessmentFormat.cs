using System.Text.Json;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Formats.Json;
using ServiceRules.Formats.Json.Shapes;
using ServiceRules.Formats.Vocabulary;

namespace ServiceRules.Formats.Assessments;

/// <summary>The assessment as a document.</summary>
public static class AssessmentFormat
{
    private const string Semantics = "semantics";

    private static readonly ObjectShape<AssessmentDigests> DigestsObject = Shape.Object<AssessmentDigests>(
        "assessment-digests",
        "Content digests of what was judged by what, over canonical JSON (RFC 8785).",
        o =>
        {
            var record = o.Required("record", Terms.Digest, "of the record", d => d.Record);
            var context = o.Required("context", Terms.Digest, "of the frozen context", d => d.Context);
            var packs = o.Required("packs", Terms.Digest, "of the rules in force", d => d.Packs);
            return v => new AssessmentDigests(v.Get(record), v.Get(context), v.Get(packs));
        }
    );

    private static readonly ObjectShape<Outcome> OutcomeObject = Shape.Object<Outcome>(
        "outcome",
        "A disposition and the rules that keep it from release.",
        o =>
        {
            var disposition = o.Required(
                "disposition",
                Shape.Choice<Disposition>("May it go out?"),
                "may it go out?",
                d => d.Disposition
            );
            var because = o.Items(
                "because",
                Terms.Identity,
                FormatLimits.Evidence,
                "the rules that keep it in",
                d => d.Because
            );
            return v => new Outcome(v.Get(disposition), v.Get(because));
        }
    );

    private static readonly ObjectShape<UnitOutcome> UnitObject = Shape.Object<UnitOutcome>(
        "unit-outcome",
        "The outcome of one unit.",
        o =>
        {
            var unit = o.Required("unit", Terms.Id<UnitWork>(), "which unit", u => u.Unit);
            var outcome = o.Required("outcome", OutcomeObject, "its outcome", u => u.Outcome);
            return v => new UnitOutcome(v.Get(unit), v.Get(outcome));
        }
    );

    private static readonly ObjectShape<Assessment> Root = Shape.Object<Assessment>(
        "assessment",
        "All findings and dispositions on one record, and the digests that make them reproducible.",
        o =>
        {
            var record = o.Required("record", Terms.Id<ServiceRecord>(), "the record", a => a.Record);
            _ = o.Required(
                Semantics,
                Shape.Word(Assessment.SemanticsVersion),
                "version of the verdict semantics",
                _ => true
            );
            var state = o.Required(
                "state",
                Shape.Choice<RecordState>("Where a record stands."),
                "where the record stands",
                a => a.State
            );
            var digests = o.Required("digests", DigestsObject, "what was judged by what", a => a.Digests);
            var job = o.Required("job", OutcomeObject, "the job's outcome", a => a.Job);
            var set = o.Required("set", OutcomeObject, "the outcome of the units together", a => a.Set);
            var units = o.Required(
                "units",
                Shape.List(UnitObject, 1, FormatLimits.Units),
                "outcome of each unit, in the order of the record",
                a => a.Units
            );
            var findings = o.Items(
                "findings",
                FindingShapes.Finding,
                FormatLimits.Findings,
                "every finding, by subject and rule",
                a => a.Findings
            );
            return v => new Assessment
            {
                Record = v.Get(record),
                State = v.Get(state),
                Digests = v.Get(digests),
                Job = v.Get(job),
                Set = v.Get(set),
                Units = v.Get(units),
                Findings = v.Get(findings),
            };
        }
    );

    /// <summary>The version that is written today.</summary>
    public static DocumentFormat<Assessment> Current { get; } =
        new("assessment", 1, ReadLimits.Library, Root);

    /// <summary>
    /// The digests that an assessment names, whatever version of the verdict semantics it is by; null when it does not
    /// name all of them.
    /// </summary>
    public static AssessmentDigests? DigestsOf(ReadOnlySpan<byte> utf8)
    {
        try
        {
            var json = new Utf8JsonReader(utf8);
            using var document = JsonDocument.ParseValue(ref json);
            return
                document.RootElement.TryGetProperty("digests", out var digests)
                && Text(digests, "record") is { } record
                && Text(digests, "context") is { } context
                && Text(digests, "packs") is { } packs
                ? new(record, context, packs)
                : null;
        }
        // The second: no object, or a string with half of a surrogate pair.
        catch (Exception problem) when (problem is JsonException or InvalidOperationException)
        {
            return null;
        }
    }

    /// <summary>
    /// The version of the verdict semantics that a document names, whatever else it holds; null when it names none. For
    /// telling an assessment of another version from a broken one.
    /// </summary>
    public static string? SemanticsOf(ReadOnlySpan<byte> utf8)
    {
        try
        {
            var json = new Utf8JsonReader(utf8);
            _ = json.Read();
            while (json.Read() && json.TokenType == JsonTokenType.PropertyName)
            {
                var isSemantics = json.ValueTextEquals(Semantics);
                _ = json.Read();
                if (isSemantics)
                {
                    return json.TokenType == JsonTokenType.String ? json.GetString() : null;
                }
                json.Skip();
            }
            return null;
        }
        // The second: a string with half of a surrogate pair.
        catch (Exception problem) when (problem is JsonException or InvalidOperationException)
        {
            return null;
        }
    }

    private static string? Text(JsonElement parent, string name) =>
        parent.TryGetProperty(name, out var member) && member.ValueKind == JsonValueKind.String
            ? member.GetString()
            : null;
}
