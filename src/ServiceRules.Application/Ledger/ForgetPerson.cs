using ServiceRules.Application.Assessing;
using ServiceRules.Formats.Ledger;

namespace ServiceRules.Application.Ledger;

/// <summary>
/// Forgets who is behind a pseudonym, and on demand removes every content that names the person. No entry is touched: the
/// log proves as before what was filed and when, and says by an entry of its own what was removed.
/// </summary>
public sealed class ForgetPerson(OpenLedger ledger)
{
    /// <param name="person">Who is forgotten.</param>
    /// <param name="correction">Who does it, and why.</param>
    /// <param name="withContents">Whether records, assessments, contexts and reports that name the person go too.</param>
    public FilingOutcome Forget(string person, Correction correction, bool withContents)
    {
        ArgumentNullException.ThrowIfNull(correction);
        if (WhereNamed.IsWordOf(correction.Reason, person, StringComparison.OrdinalIgnoreCase))
        {
            return new FilingOutcome.Refused(
                new(
                    $"the reason names `{person}`, and it would stay in the log for good",
                    "a reason without the name"
                )
            );
        }

        return ledger.File(log =>
        {
            var removed = withContents ? WhereNamed.In(log, person) : [];
            var known = log.PseudonymOf(person);
            if (known is null && removed.Count == 0)
            {
                return new FilingPlan.Refuse(Unknown(log, person));
            }

            // Forgotten once already, and still named by what is kept: nobody is to find out by which pseudonym.
            var pseudonym = known ?? NamedPerson.Draw(person).Pseudonym;
            var erasure = new Erasure(pseudonym, [.. removed.Select(hash => hash.ToString())]);
            var content = CanonicalForm.Of(ErasureFormat.Current.Write(erasure)).Bytes;
            var draft = new EntryDraft(EntryKind.Erasure, pseudonym, content)
            {
                // Whoever forgets themselves cannot be named by the pseudonym that is forgotten.
                Person = correction.By == person ? null : correction.By,
                Reason = correction.Reason,
            };
            return new FilingPlan.File([new FilingPart.New(draft)], [])
            {
                Removed = [.. removed],
                Forgotten = known,
            };
        });
    }

    /// <summary>How many contents name the person: what stays readable when only the pseudonym is forgotten.</summary>
    public static int CountNaming(ILedgerReading log, string person) => WhereNamed.In(log, person).Count;

    private static FilingRefusal Unknown(ILedgerReading log, string person) =>
        CountNaming(log, person) is var count and > 0
            ? new(
                $"`{person}` is no longer known, but {LedgerWords.Number(count)} kept contents name them",
                "to remove those as well"
            )
            : new($"the log knows nobody by the name `{person}`", "a person that something was filed by");
}
