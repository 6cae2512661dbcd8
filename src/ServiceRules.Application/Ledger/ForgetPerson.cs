using ServiceRules.Application.Accounts;
using ServiceRules.Application.Assessing;
using ServiceRules.Application.Keeping;
using ServiceRules.Evidence;
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
    /// <param name="caller">Who asks, as acts name it: accounts and keys that stand for the person go too; null: they stay.</param>
    public FilingOutcome Forget(
        string person,
        Correction correction,
        bool withContents,
        string? caller = null
    )
    {
        ArgumentNullException.ThrowIfNull(correction);
        if (WhereNamed.IsWordOf(correction.Reason, person, StringComparison.OrdinalIgnoreCase))
        {
            return new FilingOutcome.Refused(ReasonNames.Refusal(person));
        }

        return ledger.File(log =>
        {
            var removed = withContents ? WhereNamed.In(log, person) : [];
            var known = log.PseudonymOf(person);
            var accounts = caller is null ? null : AccountsOf.Read(log, person);
            if (accounts?.IsLastAdministrator == true)
            {
                return new FilingPlan.Refuse(
                    new(
                        $"the account of `{person}` is the last administrator's",
                        "after another one was made"
                    )
                );
            }

            if (known is null && removed.Count == 0 && accounts is not { IsEmpty: false })
            {
                return new FilingPlan.Refuse(Unknown(log, person));
            }

            if (Kept(log, person, known, removed) is { } hold)
            {
                return new FilingPlan.Refuse(
                    new(
                        $"hold `{hold.Id}` ({hold.Told}) keeps what names them, because: {hold.Entry.Entry.Reason}",
                        "after it was lifted"
                    )
                );
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
            var plan = new FilingPlan.File([new FilingPart.New(draft)], [])
            {
                Removed = [.. removed],
                Forgotten = known,
            };
            return accounts is null
                ? plan
                : LoggedActs.With(
                    log,
                    plan,
                    [
                        new(ledger.Now, AccountAct.PersonErased, caller!, pseudonym),
                        .. accounts.Remove(log, ledger.Now, caller!),
                    ]
                );
        });
    }

    /// <summary>How many contents name the person: what stays readable when only the pseudonym is forgotten.</summary>
    public static int CountNaming(ILedgerReading log, string person) => WhereNamed.In(log, person).Count;

    // A name behind a pseudonym is part of what is held, as the contents are.
    private static Hold? Kept(
        ILedgerReading log,
        string person,
        string? pseudonym,
        IReadOnlyCollection<ContentHash> removed
    )
    {
        var holds = HoldsOfLog.Read(log);
        if (holds.Of(person) is { } own)
        {
            return own;
        }

        if (!holds.All.Any(hold => hold.Holds))
        {
            return null;
        }

        var gone = removed.Select(hash => hash.ToString()).ToHashSet(StringComparer.Ordinal);
        return log.Entries(0)
            .Select(stored => EntryReading.TryRead(stored, out var entry, out _) ? entry : null)
            .OfType<FiledEntry>()
            .Where(entry =>
                entry.Entry.Kind
                    is EntryKind.Record
                        or EntryKind.Amendment
                        or EntryKind.Assessment
                        or EntryKind.Report
                        or EntryKind.Comment
            )
            .Where(entry =>
                (
                    pseudonym is not null
                    && (entry.Entry.By == pseudonym || entry.Entry.Sender?.Person == pseudonym)
                )
                || gone.Contains(entry.Entry.Content)
                || (
                    entry.Entry.Kind is EntryKind.Assessment
                    && ContextUse.Of(log, entry.Entry.Content) is { } context
                    && gone.Contains(context)
                )
            )
            .Select(entry => entry.Entry.Subject)
            .Distinct(StringComparer.Ordinal)
            .Select(subject => holds.Keeping(log, subject))
            .FirstOrDefault(hold => hold is not null);
    }

    private static FilingRefusal Unknown(ILedgerReading log, string person) =>
        CountNaming(log, person) is var count and > 0
            ? new(
                $"`{person}` is no longer known, but {LedgerWords.Number(count)} kept contents name them",
                "to remove those as well"
            )
            : new($"the log knows nobody by the name `{person}`", "a person that something was filed by");
}
