using System.Collections.Immutable;
using System.Globalization;
using System.Text.Json;
using ServiceRules.Application.Ledger;
using ServiceRules.Formats.Ledger;

namespace ServiceRules.Application.Rows;

/// <summary>
/// What the rows of a record are, from the log alone. They are read from the documents as JSON and not as of one version
/// of the verdict semantics, since a log outlives those.
/// </summary>
internal static class DerivedRows
{
    private const string NotApplicable = "not-applicable";
    private const string UnitKey = "unit/";

    public static bool IsVersion(FiledEntry filed) =>
        filed.Entry.Kind is EntryKind.Record or EntryKind.Amendment;

    /// <summary>Whether an entry changes what the rows of its subject are.</summary>
    public static bool Concerns(FiledEntry filed) =>
        IsVersion(filed) || filed.Entry.Kind is EntryKind.Assessment;

    /// <param name="log">The log.</param>
    /// <param name="about">Every entry about the record, in the order of the log.</param>
    /// <param name="contents">Digests of the versions asked for; null: of all.</param>
    /// <param name="siteBefore">The site of a version, where its context is gone and it was known before.</param>
    public static IEnumerable<RecordRows> Of(
        ILedgerReading log,
        IReadOnlyList<FiledEntry> about,
        IReadOnlySet<string>? contents,
        Func<long, string?> siteBefore
    )
    {
        var newest = about.LastOrDefault(IsVersion);
        foreach (var version in about.Where(IsVersion))
        {
            if (
                (contents is null || contents.Contains(version.Entry.Content))
                && log.Sound(version.Entry.Content) is { } record
            )
            {
                yield return Of(log, about, version, record, version == newest, siteBefore);
            }
        }
    }

    /// <summary>The rows of one version; null when its content is gone.</summary>
    public static RecordRows? Of(
        ILedgerReading log,
        IReadOnlyList<FiledEntry> about,
        FiledEntry version,
        Func<long, string?> siteBefore
    ) =>
        log.Sound(version.Entry.Content) is { } record
            ? Of(log, about, version, record, version == about.LastOrDefault(IsVersion), siteBefore)
            : null;

    /// <summary>The assessment that the rows of a version are made of.</summary>
    public static FiledEntry? Judged(IReadOnlyList<FiledEntry> about, FiledEntry version) =>
        about.LastOrDefault(entry =>
            entry.Entry.Kind is EntryKind.Assessment && entry.Entry.Of == version.Entry.Content
        );

    private static RecordRows Of(
        ILedgerReading log,
        IReadOnlyList<FiledEntry> about,
        FiledEntry version,
        ReadOnlyMemory<byte> record,
        bool isNewest,
        Func<long, string?> siteBefore
    )
    {
        using var said = JsonDocument.Parse(record);
        var row = Row(version, said.RootElement) with { IsNewest = isNewest };
        var judged = Judged(about, version);
        if (judged is null || log.Sound(judged.Entry.Content) is not { } assessment)
        {
            row = row with { Site = siteBefore(version.Index) };
            return new(row, [], []) { Shown = Shown(row, said.RootElement) };
        }

        using var told = JsonDocument.Parse(assessment);
        row = row with
        {
            Site = SiteOf(log, told.RootElement) ?? siteBefore(version.Index),
            Disposition = Text(told.RootElement, "job", "disposition"),
            AssessmentIndex = judged.Index,
            AssessmentHash = judged.Entry.Content,
        };
        return new(row, Units(row, told.RootElement), Findings(row, told.RootElement))
        {
            Shown = Shown(row, said.RootElement),
        };
    }

    private static ImmutableArray<ShownRow> Shown(RecordRow row, JsonElement record) =>
        ShownRows.Of(record, row.Machine, row.Day);

    private static RecordRow Row(FiledEntry version, JsonElement record) =>
        new(
            version.Index,
            version.Entry.Subject,
            Text(record, "machine", "id") ?? "",
            DateOnly.TryParseExact(
                Text(record, "date"),
                "yyyy-MM-dd",
                CultureInfo.InvariantCulture,
                DateTimeStyles.None,
                out var day
            )
                ? day
                : default,
            version.Entry.At,
            version.Entry.Content
        )
        {
            Area = Text(record, "machine", "area"),
            Tasks = [.. Items(record, "tasks").Select(task => task.GetString() ?? "")],
            By = version.Entry.By,
            IsAmendment = version.Entry.Kind is EntryKind.Amendment,
            State =
                !record.TryGetProperty("signOff", out _) ? "open"
                : record.TryGetProperty("followUp", out _) ? "followed-up"
                : "signed-off",
        };

    private static string? SiteOf(ILedgerReading log, JsonElement assessment)
    {
        if (Text(assessment, "digests", "context") is not { } digest || log.Sound(digest) is not { } bytes)
        {
            return null;
        }

        using var context = JsonDocument.Parse(bytes);
        return Text(context.RootElement, "site");
    }

    private static ImmutableArray<UnitRow> Units(RecordRow row, JsonElement assessment) =>
        [
            .. Items(assessment, "units")
                .Select(
                    (unit, at) =>
                        new UnitRow(
                            row,
                            at,
                            Text(unit, "unit") ?? "",
                            Text(unit, "outcome", "disposition") ?? ""
                        )
                ),
        ];

    private static ImmutableArray<FindingRow> Findings(RecordRow row, JsonElement assessment) =>
        [
            .. Items(assessment, "findings")
                .Select((finding, at) => Finding(row, finding, at))
                .Where(finding => finding.Verdict != NotApplicable),
        ];

    private static FindingRow Finding(RecordRow row, JsonElement finding, int at)
    {
        var subject = Text(finding, "subject") ?? "";
        return new(
            row,
            at,
            Text(finding, "rule") ?? "",
            subject,
            subject.StartsWith(UnitKey, StringComparison.Ordinal) ? subject[UnitKey.Length..] : null,
            Text(finding, "verdict") ?? "",
            Text(finding, "severity") ?? "",
            Text(finding, "effect") ?? "",
            Text(finding, "reason") ?? ""
        );
    }

    private static JsonElement.ArrayEnumerator Items(JsonElement parent, string name) =>
        parent.TryGetProperty(name, out var list) && list.ValueKind == JsonValueKind.Array
            ? list.EnumerateArray()
            : default;

    private static string? Text(JsonElement parent, params ReadOnlySpan<string> path)
    {
        foreach (var name in path)
        {
            if (parent.ValueKind != JsonValueKind.Object || !parent.TryGetProperty(name, out parent))
            {
                return null;
            }
        }

        return parent.ValueKind == JsonValueKind.String ? parent.GetString() : null;
    }
}
