using System.Text;
using ServiceRules.Application.Assessing;
using ServiceRules.Application.Library;
using ServiceRules.Application.Tests.Filed;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation;

namespace ServiceRules.Application.Tests.Assessing;

/// <summary>The register has three units at the machine of the fixture, of which one is left.</summary>
public sealed class UnitsLackingTests
{
    private const string Told =
        "1 of the 3 units of machine M-02 has height of cut here: the spread over the whole machine is not shown";

    [Fact]
    public void Spread_OfFewerUnitsThanTheRegisterHas_IsToldAndChangesNoVerdict()
    {
        var finding = Judged(3);

        Assert.Equal(Verdict.NotApplicable, finding.Verdict);
        Assert.Contains(Told, finding.Notices);
        Assert.True(ToldThoughMet.Is(Told));
    }

    [Theory]
    [InlineData(1)]
    [InlineData(null)]
    public void Spread_OfAllUnitsOrOfNoneStated_IsNotTold(int? units) =>
        Assert.DoesNotContain(
            Judged(units).Notices,
            notice => notice.Contains("is not shown", StringComparison.Ordinal)
        );

    private static Finding Judged(int? units)
    {
        var job = RecordFiles.Fixture("height-check");
        var all = job["units"]!.AsArray();
        while (all.Count > 1)
        {
            all.RemoveAt(1);
        }

        SiteRegisters site = RecordFiles.Rules.Site!;
        site = site with { Machines = [.. site.Machines.Select(machine => machine with { Units = units })] };
        var judged = Assert.IsType<AssessOutcome.Judged>(
            new AssessRecord(RecordFiles.Rules.Book, site).Assess(Encoding.UTF8.GetBytes(job.ToJsonString()))
        );
        return judged.Assessed.Assessment.Findings.First(finding =>
            finding.Rule == "heights-match-across-units"
        );
    }
}
