using System.Collections.Immutable;
using ServiceRules.Application.Assessing;
using ServiceRules.Application.Packs;
using ServiceRules.Evidence;
using ServiceRules.Formats.Ledger;

namespace ServiceRules.Application.Ledger;

/// <summary>
/// Files a record and what judging it came to. The same record again adds nothing; an open job may go on; anything else
/// under the same identity is refused unless it says what it corrects, why and by whom. Rules that were not in force by
/// the log before are told as coming into force, unless others were put in force by somebody meanwhile: those that a record was
/// judged by then do not come back with it.
/// </summary>
/// <param name="ledger">The log.</param>
/// <param name="bringsBack">Whether somebody answers for it that what an erasure removed is filed again.</param>
public sealed class FileRecord(OpenLedger ledger, bool bringsBack = false)
{
    /// <param name="assessed">The record with its assessment.</param>
    /// <param name="by">Who answers for the record; left out: who signed it off.</param>
    public FilingOutcome File(Assessed assessed, string? by)
    {
        ArgumentNullException.ThrowIfNull(assessed);
        return ledger.File(
            log => Plan(log, assessed, by ?? assessed.Record.SignOff?.By.Text, null),
            bringsBack
        );
    }

    /// <summary>
    /// The same, for what was judged by the rules in force: null where other rules or waivers judge by then, and nothing is filed.
    /// </summary>
    /// <param name="assessed">The record with its assessment.</param>
    /// <param name="rules">What it was judged by.</param>
    public FilingOutcome? FileWhile(Assessed assessed, JudgingRules rules)
    {
        ArgumentNullException.ThrowIfNull(assessed);
        ArgumentNullException.ThrowIfNull(rules);
        var isOvertaken = false;
        var outcome = ledger.File(
            log =>
            {
                if (!rules.StillJudge(log))
                {
                    isOvertaken = true;
                    return new FilingPlan.File([], []);
                }

                return Plan(log, assessed, assessed.Record.SignOff?.By.Text, null);
            },
            bringsBack
        );
        return isOvertaken ? null : outcome;
    }

    public FilingOutcome Amend(Assessed assessed, Correction correction)
    {
        ArgumentNullException.ThrowIfNull(assessed);
        ArgumentNullException.ThrowIfNull(correction);
        return ledger.File(log => Plan(log, assessed, correction.By, correction), bringsBack);
    }

    /// <summary>The two parts of a filing that a report proves: the record's entry and the assessment's.</summary>
    public static (FiledEntry Record, FiledEntry Assessment) Parts(FilingOutcome.Filed filed)
    {
        ArgumentNullException.ThrowIfNull(filed);
        // Behind them stand others that were judged again in the light of the record.
        var at = filed.Entries.Length - 1;
        while (!IsVersion(filed.Entries[at].Entry.Entry.Kind))
        {
            at--;
        }

        return (filed.Entries[at].Entry, filed.Entries[at + 1].Entry);
    }

    /// <summary>The version that came after the one given; null when that is the newest, or is not filed.</summary>
    public static FiledEntry? Superseding(ILedgerReading log, Assessed assessed)
    {
        ArgumentNullException.ThrowIfNull(assessed);
        var versions = RecordVersions.Of(log, assessed.Record.Id.Text);
        var standing = versions.Standing(assessed.Evidence.Record.Hash.ToString(), false);
        return standing is null || standing == versions.Latest ? null : versions.Latest;
    }

    /// <summary>What the filing comes to; its last two parts are the record and the assessment.</summary>
    /// <param name="log">The log.</param>
    /// <param name="assessed">The record with its assessment.</param>
    /// <param name="by">Who answers for the record.</param>
    /// <param name="correction">Who corrects what stands, and why; null: nothing is corrected.</param>
    /// <param name="sender">Who sent it, where that is known: an account or key, and whom it stands for.</param>
    /// <param name="judging">Which assessment stands already; left out: any that has the same content.</param>
    internal static FilingPlan Plan(
        ILedgerWriting log,
        Assessed assessed,
        string? by,
        Correction? correction,
        KnownSender? sender = null,
        Func<ILedgerReading, Assessed, FiledEntry?>? judging = null
    )
    {
        var id = assessed.Record.Id.Text;
        var record = assessed.Evidence.Record;
        var versions = RecordVersions.Of(log, id);
        FilingPart part;
        if (versions.Standing(record.Hash.ToString(), correction is not null) is { } standing)
        {
            if (correction?.RefusalOver(log, standing) is { } nothing)
            {
                return new FilingPlan.Refuse(nothing);
            }

            part = new FilingPart.Standing(standing);
        }
        else if (Refusal(log, versions.Latest, record, id, correction is not null) is { } refusal)
        {
            return new FilingPlan.Refuse(refusal);
        }
        else
        {
            part = new FilingPart.New(
                new EntryDraft(correction is null ? EntryKind.Record : EntryKind.Amendment, id, record.Bytes)
                {
                    Person = by,
                    Sender = sender?.In(assessed.Record),
                    Reason = correction?.Reason,
                    Corrects = correction is null
                        ? null
                        : new CorrectedEntry(versions.Latest!.Index, versions.Latest.Entry.Content),
                }
            );
        }

        return new FilingPlan.File(
            [.. Activation(log, assessed), part, Assessment(assessed, (judging ?? Standing)(log, assessed))],
            [assessed.Evidence.Context.Bytes, assessed.Evidence.Rules.Bytes]
        );
    }

    private static FilingRefusal? Refusal(
        ILedgerReading log,
        FiledEntry? latest,
        CanonicalDocument record,
        string id,
        bool isAmending
    )
    {
        if (isAmending)
        {
            return latest is null ? FilingRefusal.NothingToAmend(id) : null;
        }

        if (latest is null)
        {
            return null;
        }

        if (log.Sound(latest.Entry.Content) is not { } before)
        {
            return new(
                $"`{id}` stands as {LedgerWords.Entry(latest.Index)}, and its content is {log.WhyNone(latest.Entry.Content)}",
                "an amendment, with a reason and who amends"
            )
            {
                Standing = latest,
            };
        }

        if (RecordProgress.IsProgress(before, record.Bytes))
        {
            return null;
        }

        var differences = JsonDifference.Between(before, record.Bytes);
        return new(
            $"`{id}` stands as {LedgerWords.Entry(latest.Index)} with other content, first at {differences[0].Pointer}",
            "the same content, an open job further on, or an amendment with a reason and who amends"
        )
        {
            Standing = latest,
            Differences = [.. differences],
        };
    }

    private static bool IsVersion(EntryKind kind) => kind is EntryKind.Record or EntryKind.Amendment;

    /// <summary>The entries of what judging this content of a record came to, the oldest first.</summary>
    internal static IEnumerable<FiledEntry> Assessments(ILedgerReading log, Assessed assessed)
    {
        var of = assessed.Evidence.Record.Hash.ToString();
        return EntryReading
            .About(log, assessed.Record.Id.Text)
            .Where(entry => entry.Entry.Kind is EntryKind.Assessment && entry.Entry.Of == of);
    }

    private static FiledEntry? Standing(ILedgerReading log, Assessed assessed)
    {
        var content = assessed.Evidence.Assessment.Hash.ToString();
        return Assessments(log, assessed).FirstOrDefault(entry => entry.Entry.Content == content);
    }

    private static FilingPart Assessment(Assessed assessed, FiledEntry? standing) =>
        standing is not null
            ? new FilingPart.Standing(standing)
            : new FilingPart.New(
                new EntryDraft(
                    EntryKind.Assessment,
                    assessed.Record.Id.Text,
                    assessed.Evidence.Assessment.Bytes
                )
                {
                    Of = assessed.Evidence.Record.Hash,
                }
            );

    private static ImmutableArray<FilingPart> Activation(ILedgerWriting log, Assessed assessed)
    {
        var rules = assessed.Evidence.Rules;
        var isOther =
            log.Packs.InForce() is { } activation && activation.Digest != assessed.Assessment.Digests.Packs;
        return isOther || FileRules.InForce(log)?.Entry.Content == rules.Hash.ToString()
            ? []
            :
            [
                new FilingPart.New(
                    new EntryDraft(EntryKind.PackActivation, FileRules.Subject, rules.Bytes)
                    {
                        Reason = $"first used to judge {assessed.Record.Id}",
                    }
                ),
            ];
    }
}
