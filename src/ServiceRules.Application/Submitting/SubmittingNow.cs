using ServiceRules.Application.Ledger;
using ServiceRules.Application.Notices;
using ServiceRules.Application.Packs;

namespace ServiceRules.Application.Submitting;

/// <summary>Submits by the rules that are in force at the moment. A submission under way ends by those that it began with.</summary>
/// <param name="rules">What judges.</param>
/// <param name="ledger">The log.</param>
/// <param name="filing">Files.</param>
/// <param name="recipients">Who is told of holds and stops.</param>
/// <param name="site">The site, where there are several.</param>
public sealed class SubmittingNow(
    ActiveRules rules,
    OpenLedger ledger,
    GroupFiling filing,
    NoticeRecipients recipients,
    string? site = null
)
{
    private volatile Made? made;

    /// <summary>Judges and files by the rules in force.</summary>
    /// <exception cref="LedgerStoreException">Which they are cannot be told.</exception>
    public SubmitRecord Now()
    {
        var now = rules.Now();
        if (made is { } last && ReferenceEquals(last.Rules, now))
        {
            return last.Submitting;
        }

        var next = new Made(
            now,
            new SubmitRecord(
                now.Judging,
                ledger,
                filing,
                site is null ? recipients : recipients.At(site),
                site is not null
            )
        );
        made = next;
        return next.Submitting;
    }

    private sealed record Made(JudgingRules Rules, SubmitRecord Submitting);
}
