using ServiceRules.Application.Assessing;
using ServiceRules.Formats.Ledger;

namespace ServiceRules.Application.Ledger;

/// <summary>Files a report that was issued on a filed assessment.</summary>
public sealed class FileReport(OpenLedger ledger, bool bringsBack = false)
{
    public FilingOutcome File(Assessed assessed, ReadOnlyMemory<byte> report, string? by)
    {
        ArgumentNullException.ThrowIfNull(assessed);
        var id = assessed.Record.Id.Text;
        var of = assessed.Evidence.Assessment.Hash;
        return ledger.File(
            log =>
            {
                var about = EntryReading.About(log, id).ToList();
                if (
                    !about.Exists(entry =>
                        entry.Entry.Kind is EntryKind.Assessment && entry.Entry.Content == of.ToString()
                    )
                )
                {
                    return new FilingPlan.Refuse(
                        new(
                            $"the assessment of `{id}` that this report tells is not filed",
                            "a filed assessment"
                        )
                    );
                }

                var draft = new EntryDraft(EntryKind.Report, id, report) { Of = of, Person = by };
                var standing = about.Find(entry =>
                    entry.Entry.Kind is EntryKind.Report && entry.Entry.Content == draft.Hash.ToString()
                );
                return new FilingPlan.File(
                    [standing is null ? new FilingPart.New(draft) : new FilingPart.Standing(standing)],
                    []
                );
            },
            bringsBack
        );
    }
}
