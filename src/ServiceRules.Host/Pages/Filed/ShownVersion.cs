using System.Globalization;
using System.Text.Json.Nodes;
using ServiceRules.Application.Ledger;
using ServiceRules.Formats.Ledger;
using ServiceRules.Host.Accounts;
using ServiceRules.Host.Filing;
using ServiceRules.Host.Problems;

namespace ServiceRules.Host.Pages.Filed;

/// <summary>One version of a record as a page tells it.</summary>
/// <param name="What">What was filed, and where it stands in the log.</param>
/// <param name="When">When.</param>
/// <param name="By">Who answers for it, by pseudonym.</param>
/// <param name="Why">Why; empty where no reason was needed.</param>
/// <param name="Outcome">What judging it came to.</param>
/// <param name="Changes">What is otherwise than in the version before.</param>
/// <param name="Untold">How many further changes there are.</param>
public sealed record ShownVersion(
    string What,
    string When,
    string By,
    string Why,
    string Outcome,
    IReadOnlyList<string> Changes,
    int Untold
)
{
    // More than anyone reads on a page; `ledger show` tells all.
    private const int ChangesMost = 30;
    private const int ValueLength = 80;

    /// <summary>
    /// Who sent it: the account or key, and whom that stands for; to whoever sees but the records that name them, by pseudonym.
    /// </summary>
    public string Sent { get; init; } = "";

    /// <summary>The versions of a record, the newest first.</summary>
    /// <param name="log">The log.</param>
    /// <param name="id">The record.</param>
    /// <param name="caller">Who asks: what changed is told where both versions may be seen.</param>
    internal static IReadOnlyList<ShownVersion> Of(ILedgerReading log, string id, Caller caller)
    {
        var versions = new TellSubject(log)
            .Tell(id)
            .Where(version => version.Entry.Entry.Kind is EntryKind.Record or EntryKind.Amendment)
            .ToList();
        return
        [
            .. versions
                .Select((version, at) => Of(log, version, at == 0 ? null : versions[at - 1], caller))
                .Reverse(),
        ];
    }

    private static ShownVersion Of(
        ILedgerReading log,
        SubjectVersion version,
        SubjectVersion? before,
        Caller caller
    )
    {
        var entry = version.Entry;
        List<string> changes =
            before is not null && caller.Sees(before.Content) && caller.Sees(version.Content)
                ?
                [
                    .. version.Verdicts.Select(one => ShownTurn.Sentence(Seen(ToldChange.Of(one), caller))),
                    .. Changed(before, version),
                ]
                : [];
        return new(
            string.Create(
                CultureInfo.InvariantCulture,
                $"{(before is null ? "filed" : entry.Entry.Kind is EntryKind.Amendment ? "corrected" : "carried on")} (entry {entry.Index})"
            ),
            entry.Entry.At.UtcDateTime.ToString("yyyy-MM-dd HH:mm:ss 'UTC'", CultureInfo.InvariantCulture),
            entry.Entry.By ?? "nobody named",
            entry.Entry.Reason ?? "",
            ShownFinding.WordOfDisposition(
                !version.Assessments.IsEmpty
                && log.Sound(version.Assessments[^1].Entry.Entry.Content) is { } judged
                    ? ToldAssessment.Of(judged).Disposition
                    : null
            ),
            [.. changes.Take(ChangesMost)],
            Math.Max(0, changes.Count - ChangesMost)
        )
        {
            Sent = version.Sent(namesPerson: !caller.IsLimited) is { } sent
                ? $"{char.ToUpperInvariant(sent[0])}{sent[1..]}."
                : "Nothing tells who sent it: no sign-in was checked.",
        };
    }

    // What a finding says may rest on records of others; the assessment tells it as far as it may be told.
    private static ToldChange Seen(ToldChange change, Caller caller) =>
        caller.IsLimited ? change with { Statement = null } : change;

    private static IEnumerable<string> Changed(SubjectVersion before, SubjectVersion version)
    {
        if (
            version.Changes is not { } changes
            || before.Content is not { } old
            || version.Content is not { } now
        )
        {
            yield break;
        }

        var (was, stands) = (JsonNode.Parse(old.Span), JsonNode.Parse(now.Span));
        foreach (var change in changes)
        {
            yield return change switch
            {
                { New: null } => $"{PlaceWords.Of(was, change.Pointer)}: {Value(change.Old)}, now gone",
                { Old: null } => $"{PlaceWords.Of(stands, change.Pointer)}: new, {Value(change.New)}",
                _ => $"{PlaceWords.Of(stands, change.Pointer)}: {Value(change.Old)}, now {Value(change.New)}",
            };
        }
    }

    private static string Value(string? json) =>
        json switch
        {
            null => "",
            ['"', .., '"'] => Shortened.To(JsonNode.Parse(json)!.GetValue<string>(), ValueLength),
            ['{' or '[', ..] => "an entry",
            _ => Shortened.To(json, ValueLength),
        };
}
