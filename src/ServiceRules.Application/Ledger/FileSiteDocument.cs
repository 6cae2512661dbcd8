using ServiceRules.Application.Assessing;
using ServiceRules.Domain.Site;
using ServiceRules.Formats.Ledger;
using ServiceRules.Formats.Registers;

namespace ServiceRules.Application.Ledger;

/// <summary>Files what a site decides: setting orders and waivers. Under one identity, other content needs a correction.</summary>
public sealed class FileSiteDocument(OpenLedger ledger, bool bringsBack = false)
{
    /// <summary>Files a setting order as submitted; who set it answers for it.</summary>
    public FilingOutcome SettingOrder(ReadOnlyMemory<byte> bytes, Correction? correction)
    {
        if (!SettingOrderFormat.Current.Read(bytes).TryGet(out var order, out var problems))
        {
            return new FilingOutcome.Unreadable(problems);
        }

        var content = CanonicalForm.Of(bytes.Span).Bytes;
        return File(
            new(EntryKind.SettingOrder, order.Id.Text, content) { Person = order.By.Text },
            correction
        );
    }

    /// <summary>Files a waiver; who loosens the rule answers for it.</summary>
    public FilingOutcome Waiver(Waiver waiver, Correction? correction)
    {
        ArgumentNullException.ThrowIfNull(waiver);
        var content = CanonicalForm.Of(WaiverFormat.Current.Write(waiver)).Bytes;
        return File(
            new(EntryKind.Waiver, SubjectOf(waiver), content) { Person = waiver.By.Text },
            correction
        );
    }

    /// <summary>What a waiver is about: its rule, its unit and its first day.</summary>
    public static string SubjectOf(Waiver waiver)
    {
        ArgumentNullException.ThrowIfNull(waiver);
        return FormattableString.Invariant($"{waiver.Rule}.{waiver.Unit ?? "all"}.{waiver.From:yyyy-MM-dd}");
    }

    private FilingOutcome File(EntryDraft draft, Correction? correction) =>
        ledger.File(
            log =>
            {
                var versions = EntryReading
                    .About(log, draft.Subject)
                    .Where(entry => entry.Entry.Kind == draft.Kind)
                    .ToList();
                // An amendment may go back to an earlier content, so that only the newest stands in its way.
                var standsAt = correction is null ? versions : versions.TakeLast(1);
                if (
                    standsAt.LastOrDefault(entry => entry.Entry.Content == draft.Hash.ToString()) is
                    { } standing
                )
                {
                    return correction?.RefusalOver(log, standing) is { } nothing
                        ? new FilingPlan.Refuse(nothing)
                        : new FilingPlan.File([new FilingPart.Standing(standing)], []);
                }

                if (Refusal(draft, versions.LastOrDefault(), correction) is { } refusal)
                {
                    return new FilingPlan.Refuse(refusal);
                }

                var part = correction is null
                    ? draft
                    : draft with
                    {
                        Person = correction.By,
                        Reason = correction.Reason,
                        Corrects = new CorrectedEntry(versions[^1].Index, versions[^1].Entry.Content),
                    };
                return new FilingPlan.File([new FilingPart.New(part)], []);
            },
            bringsBack
        );

    private static FilingRefusal? Refusal(EntryDraft draft, FiledEntry? latest, Correction? correction) =>
        (latest, correction) switch
        {
            (null, not null) => new(
                $"no `{draft.Subject}` is filed, so there is nothing to amend",
                "the identity of what is filed"
            ),
            (not null, null) => new(
                $"`{draft.Subject}` stands as {LedgerWords.Entry(latest.Index)} with other content",
                "the same content, another identity, or an amendment with a reason and who amends"
            ),
            _ => null,
        };
}
