using System.Collections.Immutable;
using System.Globalization;
using System.Text.Json;
using ServiceRules.Application.Ledger;
using ServiceRules.Evidence;
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
    /// <param name="isErased">Whether a content that is not there was removed on purpose.</param>
    public static IEnumerable<(FiledEntry Version, MadeRows Made)> Of(
        ILedgerReading log,
        IReadOnlyList<FiledEntry> about,
        IReadOnlySet<string>? contents,
        Func<long, string?> siteBefore,
        Func<ContentHash, bool> isErased
    ) =>
        about
            .Where(IsVersion)
            .Where(version => contents is null || contents.Contains(version.Entry.Content))
            .Select(version => (version, Of(log, about, version, siteBefore, isErased)));

    /// <summary>The rows of one version.</summary>
    public static MadeRows Of(
        ILedgerReading log,
        IReadOnlyList<FiledEntry> about,
        FiledEntry version,
        Func<long, string?> siteBefore,
        Func<ContentHash, bool> isErased
    ) =>
        log.Sound(version.Entry.Content) is { } record
            ? Of(log, about, version, record, siteBefore, isErased)
            : new(null, Lost(version, "content", version.Entry.Content, isErased));

    /// <summary>The assessment that the rows of a version are made of.</summary>
    public static FiledEntry? Judged(IReadOnlyList<FiledEntry> about, FiledEntry version) =>
        about.LastOrDefault(entry =>
            entry.Entry.Kind is EntryKind.Assessment && entry.Entry.Of == version.Entry.Content
        );

    private static MadeRows Of(
        ILedgerReading log,
        IReadOnlyList<FiledEntry> about,
        FiledEntry version,
        ReadOnlyMemory<byte> record,
        Func<long, string?> siteBefore,
        Func<ContentHash, bool> isErased
    )
    {
        using var said = JsonDocument.Parse(record);
        var row = Row(version, said.RootElement) with
        {
            IsNewest = version == about.LastOrDefault(IsVersion),
        };
        var judged = Judged(about, version);
        if (judged is null || log.Sound(judged.Entry.Content) is not { } assessment)
        {
            // Where it was erased the record stands without a verdict; where it is lost, it would only look so.
            if (judged is not null && Lost(judged, "content", judged.Entry.Content, isErased) is { } lost)
            {
                return new(null, lost);
            }

            row = row with { Site = siteBefore(version.Index) };
            return new(new(row, [], []) { Shown = Shown(row, said.RootElement) }, null);
        }

        using var told = JsonDocument.Parse(assessment);
        var site = siteBefore(version.Index);
        if (Text(told.RootElement, "digests", "context") is { } digest)
        {
            if (log.Sound(digest) is { } context)
            {
                site = SiteOf(context) ?? site;
            }
            else if (Lost(judged, "context", digest, isErased) is { } lost)
            {
                return new(null, lost);
            }
        }

        row = row with
        {
            Site = site,
            Disposition = Text(told.RootElement, "job", "disposition"),
            AssessmentIndex = judged.Index,
            AssessmentHash = judged.Entry.Content,
        };
        return new(
            new(row, Units(row, told.RootElement), Findings(row, told.RootElement))
            {
                Shown = Shown(row, said.RootElement),
            },
            null
        );
    }

    private static LostContent? Lost(
        FiledEntry named,
        string whose,
        string digest,
        Func<ContentHash, bool> isErased
    ) => ContentHash.TryParse(digest, out var hash) && !isErased(hash) ? new(named, whose, digest) : null;

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

    private static string? SiteOf(ReadOnlyMemory<byte> bytes)
    {
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
