using ServiceRules.Conformance.Tests.Worked;
using ServiceRules.Domain.Verdicts;

namespace ServiceRules.Conformance.Tests;

/// <summary>
/// The same record in inches and in millimetres gets the same verdicts and the same remedies, save between the two
/// prints of a dual limit, and then both findings say so.
/// </summary>
public sealed class WorkedRecordsInOtherUnitsTests
{
    private const string PrintsPart = "the two printed limits part here";

    public static TheoryData<string> Names() => [.. WorkedRecord.Names()];

    [Theory]
    [MemberData(nameof(Names))]
    public void Assess_SameRecordInMillimetres_AgreesSaveBetweenThePrints(string name)
    {
        WorkedRecord worked = WorkedRecord.Read(name);

        AssertAgree(worked.Judged(), WorkedRecord.Judged(Words.InMillimetres(worked.Json)));
    }

    [Theory]
    [MemberData(nameof(Names))]
    public void Assess_SameRecordInInches_AgreesSaveBetweenThePrints(string name)
    {
        WorkedRecord worked = WorkedRecord.Read(name);

        AssertAgree(worked.Judged(), WorkedRecord.Judged(Words.InInches(worked.Json)));
    }

    [Fact]
    public void Assess_BetweenThePrints_VerdictsPartInThatFindingAlone()
    {
        WorkedRecord inches = WorkedRecord.Read("W17");

        List<(Finding One, Finding Other)> parted = Parted(
            inches.Judged(),
            WorkedRecord.Judged(Words.InMillimetres(inches.Json))
        );

        var (one, other) = Assert.Single(parted);
        Assert.Equal("brush-gap-within-limits", one.Rule);
        Assert.Equal((Verdict.Unproven, Verdict.Met), (one.Verdict, other.Verdict));
    }

    private static void AssertAgree(Assessment one, Assessment other)
    {
        List<(Finding One, Finding Other)> parted = Parted(one, other);
        Assert.All(
            parted.SelectMany(pair => new[] { pair.One, pair.Other }),
            finding =>
                Assert.Contains(
                    finding.Notices,
                    notice => notice.Contains(PrintsPart, StringComparison.Ordinal)
                )
        );
        if (parted.Count == 0)
        {
            Assert.Equal(Dispositions(one), Dispositions(other));
            Assert.Equal(Remedies(one), Remedies(other));
        }
    }

    private static List<(Finding One, Finding Other)> Parted(Assessment one, Assessment other)
    {
        Assert.Equal(
            one.Findings.Select(finding => (finding.Rule, finding.Subject.Key)),
            other.Findings.Select(finding => (finding.Rule, finding.Subject.Key))
        );
        return
        [
            .. one
                .Findings.Zip(other.Findings)
                .Where(pair =>
                    (pair.First.Verdict, pair.First.Reason) != (pair.Second.Verdict, pair.Second.Reason)
                ),
        ];
    }

    private static List<string> Dispositions(Assessment assessment) =>
        [
            $"job {assessment.Job.Disposition} {string.Join(' ', assessment.Job.Because)}",
            $"set {assessment.Set.Disposition} {string.Join(' ', assessment.Set.Because)}",
            .. assessment.Units.Select(unit =>
                $"{unit.Unit} {unit.Outcome.Disposition} {string.Join(' ', unit.Outcome.Because)}"
            ),
        ];

    private static List<string> Remedies(Assessment assessment) =>
        [
            .. assessment.Findings.Select(finding =>
                $"{finding.Rule} {finding.Subject.Key}: {RemedyWords.Told(finding.Remedy)}"
            ),
        ];
}
