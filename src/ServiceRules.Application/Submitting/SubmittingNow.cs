using ServiceRules.Application.Assessing;
using ServiceRules.Application.Ledger;
using ServiceRules.Application.Notices;
using ServiceRules.Application.Packs;

namespace ServiceRules.Application.Submitting;

/// <summary>
/// Submits by the rules that are in force at the moment. Where others came into force, or a waiver was entered or withdrawn, while a
/// record was judged, it is judged anew: nothing is filed by what somebody ended before.
/// </summary>
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
    // Each time, somebody put other rules in force or changed a waiver within the time that judging takes.
    private const int AttemptsMost = 4;

    private volatile Made? made;

    /// <summary>Judges as submitting would, and stores nothing.</summary>
    /// <exception cref="LedgerStoreException">The store cannot be read.</exception>
    public AssessOutcome Judge(ReadOnlyMemory<byte> body) => Now().Judge(body);

    /// <summary>Judges and files; what was answered to the key before is answered again without judging.</summary>
    /// <param name="submission">What was sent.</param>
    /// <param name="cancellation">Stops waiting. What is filed by then stands; sent again, it is told.</param>
    public async Task<SubmissionOutcome> SubmitAsync(
        Submission submission,
        CancellationToken cancellation = default
    )
    {
        try
        {
            for (var attempt = 0; attempt < AttemptsMost; attempt++)
            {
                if (await Now().TryAsync(submission, cancellation).ConfigureAwait(false) is { } outcome)
                {
                    return outcome;
                }
            }

            return SubmitRecord.Overtaken;
        }
        catch (LedgerStoreException failure)
        {
            return new SubmissionOutcome.Trouble(failure.Trouble, failure.Message);
        }
    }

    /// <summary>Judges and files by the rules in force now, for as long as they are.</summary>
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
            {
                Rules = now,
            }
        );
        made = next;
        return next.Submitting;
    }

    private sealed record Made(JudgingRules Rules, SubmitRecord Submitting);
}
