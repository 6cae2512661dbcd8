using System.Text.Json;
using ServiceRules.Application.Assessing;
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
    public FilingOutcome Forget(string person, Correction correction, bool withContents)
    {
        ArgumentNullException.ThrowIfNull(correction);
        if (Names(correction.Reason, person))
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
            var removed = withContents ? Naming(log, person) : [];
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
    public static int CountNaming(ILedgerReading log, string person) => Naming(log, person).Count;

    // As a word of its own: who is called `ann` is not named by `cannot`, nor `tech-0` by `tech-02`.
    private static bool Names(string reason, string person)
    {
        for (
            var at = reason.IndexOf(person, StringComparison.OrdinalIgnoreCase);
            at >= 0;
            at = reason.IndexOf(person, at + 1, StringComparison.OrdinalIgnoreCase)
        )
        {
            if (!GoesOn(reason[..at].Reverse()) && !GoesOn(reason[(at + person.Length)..]))
            {
                return true;
            }
        }

        return false;
    }

    // Marks within an identity also end sentences: they belong to it where a letter or digit is behind them.
    private static bool GoesOn(IEnumerable<char> text) =>
        text.SkipWhile(symbol => symbol is '.' or '-' or '_').Take(1).Any(char.IsLetterOrDigit);

    private static FilingRefusal Unknown(ILedgerReading log, string person) =>
        CountNaming(log, person) is var count and > 0
            ? new(
                $"`{person}` is no longer known, but {LedgerWords.Number(count)} kept contents name them",
                "to remove those as well"
            )
            : new($"the log knows nobody by the name `{person}`", "a person that something was filed by");

    private static List<ContentHash> Naming(ILedgerReading log, string person)
    {
        // As contents spell it: another writer of JSON may escape what the canonical form does not.
        var named = CanonicalForm.Of(JsonSerializer.SerializeToUtf8Bytes(person)).Bytes;
        var found = log.Contents()
            .Where(hash => log.Content(hash) is { } bytes && bytes.Span.IndexOf(named.Span) >= 0)
            .Select(hash => hash.ToString())
            .ToHashSet(StringComparer.Ordinal);
        // A report is compressed, so that it is found by what it tells; entries come in the order in which they rest on each other.
        foreach (var stored in log.Entries(0))
        {
            if (
                EntryReading.TryRead(stored, out var entry, out _)
                && entry.Entry.Of is { } of
                && found.Contains(of)
            )
            {
                found.Add(entry.Entry.Content);
            }
        }

        return
        [
            .. found
                .Order(StringComparer.Ordinal)
                .Select(text => ContentHash.TryParse(text, out var hash) ? hash : default),
        ];
    }
}
