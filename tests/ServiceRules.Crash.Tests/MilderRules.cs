using ServiceRules.Application.Assessing;
using ServiceRules.Application.Library;
using ServiceRules.Application.Packs;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Storage;
using ServiceRules.TestKit;

namespace ServiceRules.Crash.Tests;

/// <summary>
/// A folder that begins with the shipped rules but for those that hold a unit that is set too high; the shipped ones are kept in it, to
/// be put in force later.
/// </summary>
internal static class MilderRules
{
    private static readonly Lazy<(RuleDocument Milder, RuleDocument Shipped)> Both = new(Make);

    public static string ShippedDigest => Both.Value.Shipped.Digest;

    public static void BeginIn(DataFolder data)
    {
        var (milder, shipped) = Both.Value;
        using var folder = LedgerFolder.OpenOrCreate(data.Ledger);
        _ = folder.Rules.Begin(milder.Digest, milder.Bytes, DateTimeOffset.UtcNow, "milder at first");
        Assert.True(
            folder.Store.Write(writing =>
                writing.Packs.Keep(shipped.Digest, shipped.Bytes, DateTimeOffset.UtcNow)
            )
        );
    }

    private static (RuleDocument, RuleDocument) Make()
    {
        var rules = RuleFolder.Load(ReferenceFiles.InRepository("rules"));
        var judged = Assert.IsType<AssessOutcome.Judged>(
            new AssessRecord(rules.Book, rules.Site!).Assess(Job.Held(1))
        );
        var breached = judged
            .Assessed.Assessment.Findings.Where(finding => finding.Verdict is Verdict.NotMet)
            .Select(finding => finding.Rule)
            .ToHashSet();
        var milder = rules.Book with
        {
            Packs =
            [
                .. rules.Book.Packs.Select(pack =>
                    pack with
                    {
                        Rules = [.. pack.Rules.Where(rule => !breached.Contains(rule.Id.Text))],
                    }
                ),
            ],
        };
        return (RuleDocument.Of(milder), RuleDocument.Of(rules.Book));
    }
}
