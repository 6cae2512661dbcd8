using ServiceRules.Application.Assessing;
using ServiceRules.Application.Ledger;
using ServiceRules.Application.Notices;
using ServiceRules.Application.Packs;
using ServiceRules.Application.Rejudging;
using ServiceRules.Application.Submitting;
using ServiceRules.Application.Waiving;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Model;
using ServiceRules.Storage.Tests.Submitting;

namespace ServiceRules.Storage.Tests.Rejudging;

/// <summary>One instance that files by the rules in force and judges pages of the history again.</summary>
internal sealed class RejudgedHistory : IAsyncDisposable
{
    public static readonly DateTimeOffset At = new(2026, 5, 1, 8, 0, 0, TimeSpan.Zero);

    private readonly SubmittingNow _submitting;
    private readonly RejudgePage _pages;

    public RejudgedHistory(Drawer drawer, NoticeRecipients? recipients = null)
    {
        Counter = new Counter(drawer, recipients);
        var rules = new ActiveRules(
            Counter.Folder.Rules,
            new SiteWaivers(Counter.Folder.Waivers, Jobs.Rules.Site!)
        );
        _submitting = new SubmittingNow(
            rules,
            Counter.Ledger,
            Counter.Filing,
            recipients ?? NoticeRecipients.None
        );
        _pages = new RejudgePage(
            Counter.Ledger,
            Counter.Filing,
            Counter.Folder.Rejudgings,
            rules,
            recipients ?? NoticeRecipients.None,
            false,
            (entry, defect) => Defects.Add((entry, defect))
        );
    }

    public Counter Counter { get; }

    public List<(long Entry, Exception Defect)> Defects { get; } = [];

    public static RuleDocument Strict { get; } = RuleDocument.Of(Jobs.Rules.Book);

    /// <summary>Without the rules that hold a unit that is set too high.</summary>
    public static RuleDocument Lenient { get; } = RuleDocument.Of(LenientBook());

    /// <summary>Judges as the strict ones do.</summary>
    public static RuleDocument Renamed { get; } =
        RuleDocument.Of(
            Jobs.Rules.Book with
            {
                Packs =
                [
                    Jobs.Rules.Book.Packs[0] with
                    {
                        Title = "the same with another title",
                    },
                    .. Jobs.Rules.Book.Packs.Skip(1),
                ],
            }
        );

    public static RuleDocument WithoutSheets { get; } = RuleDocument.Of(Jobs.Rules.Book with { Sheets = [] });

    public void BeginWith(RuleDocument book) =>
        _ = Counter.Folder.Rules.Begin(book.Digest, book.Bytes, At, "first");

    /// <summary>What judges by the rules that are in force now, and files for as long as they are.</summary>
    public SubmitRecord Submitting => _submitting.Now();

    public async Task FileAsync(string id, bool isTooHigh)
    {
        var outcome = await _submitting.SubmitAsync(new Submission(Job(id, isTooHigh)));
        Assert.IsType<SubmissionOutcome.Stored>(outcome);
    }

    /// <summary>A further version, judged by the rules in force.</summary>
    public async Task AmendAsync(string id)
    {
        var outcome = await _submitting.SubmitAsync(
            new Submission(Job(id, isTooHigh: false)) { Correction = new Correction("lead-01", "misread") }
        );
        Assert.IsType<SubmissionOutcome.Amended>(outcome);
    }

    public void Activate(RuleDocument book)
    {
        _ = new StoreRules(Counter.Ledger).Keep(book, "key:1");
        Assert.IsType<ActivationOutcome.Activated>(
            new ActivateRules(Counter.Ledger, Counter.Folder.Rules).Activate(
                book.Digest,
                null,
                "season",
                "key:1"
            )
        );
    }

    public RejudgingBegun Begin(RuleDocument book) =>
        new BeginRejudging(Counter.Ledger, Counter.Folder.Rules).Begin(book.Digest, "season", "key:1");

    public Task<RejudgingCounts?> PageAsync(long job, long page = 0) =>
        _pages.DoAsync(job, page, CancellationToken.None);

    /// <summary>The same, for what happens in the middle of something else.</summary>
    public RejudgingCounts? Page(long job) => PageAsync(job).GetAwaiter().GetResult();

    public Task<RejudgingCounts?> GiveUpAsync(long job, long page = 0) =>
        _pages.GiveUpAsync(job, page, CancellationToken.None);

    public RowsOf Of(string id)
    {
        var row = Counter.Rows.Versions(id).Single(one => one.IsNewest);
        return new(row.Disposition, row.AssessmentIndex!.Value);
    }

    public async ValueTask DisposeAsync() => await Counter.DisposeAsync();

    public static byte[] TooHigh(string id) => Job(id, isTooHigh: true);

    private static byte[] Job(string id, bool isTooHigh) =>
        isTooHigh
            ? Jobs.Job(id, job => job["units"]![0]!["entries"]![0]!["value"] = "4.90 mm")
            : Jobs.Job(id);

    private static RuleBook LenientBook()
    {
        var judged = Assert.IsType<AssessOutcome.Judged>(Jobs.Judging.Assess(Job("J-1", true)));
        var breached = judged
            .Assessed.Assessment.Findings.Where(finding => finding.Verdict is Verdict.NotMet)
            .Select(finding => finding.Rule)
            .ToHashSet();
        return Jobs.Rules.Book with
        {
            Packs =
            [
                .. Jobs.Rules.Book.Packs.Select(pack =>
                    pack with
                    {
                        Rules = [.. pack.Rules.Where(rule => !breached.Contains(rule.Id.Text))],
                    }
                ),
            ],
        };
    }

    internal sealed record RowsOf(string? Disposition, long Assessment);
}
