using System.Text.Json.Nodes;
using ServiceRules.Conformance.Tests.Worked;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Verdicts;

namespace ServiceRules.Conformance.Tests;

/// <summary>
/// Records worked out by hand agree with the product: verdicts, dispositions, figures at every place, and what to turn,
/// to the step. The working stands beside each record in tests/reference/worked.
/// </summary>
public sealed class WorkedRecordsTests
{
    public static TheoryData<string> Names() => [.. WorkedRecord.Names()];

    [Fact]
    public void Folder_Records_AreAtLeastTwenty() => Assert.True(WorkedRecord.Names().Count() >= 20);

    [Theory]
    [MemberData(nameof(Names))]
    public void Assess_WorkedRecord_DisposesAsWorked(string name)
    {
        WorkedRecord worked = WorkedRecord.Read(name);

        Assessment assessment = worked.Judged();

        Assert.Equal(WorkedRecord.Text(worked.Expected, "state"), Words.Of(assessment.State));
        Assert.Equal(WorkedRecord.Text(worked.Expected, "job"), Words.Of(assessment.Job.Disposition));
        Assert.Equal(WorkedRecord.Texts(worked.Expected, "because"), assessment.Job.Because);
        Assert.Equal(
            worked.Expected["units"]!.AsObject().Select(unit => (unit.Key, unit.Value!.GetValue<string>())),
            assessment.Units.Select(unit => (unit.Unit.Text, Words.Of(unit.Outcome.Disposition)))
        );
        if (WorkedRecord.Text(worked.Expected, "set") is { } set)
        {
            Assert.Equal(set, Words.Of(assessment.Set.Disposition));
        }
    }

    [Theory]
    [MemberData(nameof(Names))]
    public void Assess_WorkedRecord_FindsWhatWasWorkedAndNothingElse(string name)
    {
        WorkedRecord worked = WorkedRecord.Read(name);

        Assessment assessment = worked.Judged();

        Assert.Equal(
            worked.Wanted("open", assessment).Select(each => Line(each.Found)).Order(StringComparer.Ordinal),
            assessment
                .Findings.Where(finding => finding.Verdict is Verdict.NotMet or Verdict.Unproven)
                .Select(Line)
                .Order(StringComparer.Ordinal)
        );
        Assert.All(
            worked.Wanted("open", assessment),
            each =>
            {
                Assert.Equal(WorkedRecord.Text(each.Wanted, "verdict"), Words.Of(each.Found.Verdict));
                string? reason = WorkedRecord.Text(each.Wanted, "reason");
                Assert.True(reason is null || reason == Words.Of(each.Found.Reason), Line(each.Found));
            }
        );
    }

    [Theory]
    [MemberData(nameof(Names))]
    public void Assess_WorkedRecord_ComparesTheFiguresOfTheWorking(string name)
    {
        WorkedRecord worked = WorkedRecord.Read(name);
        Assessment assessment = worked.Judged();

        List<string> wrong =
        [
            .. worked
                .Wanted("comparisons", assessment)
                .Where(each => !each.Found.Comparisons.Any(found => Agrees(each.Wanted, found)))
                .Select(each =>
                    $"{each.Wanted.ToJsonString()}\n  not among\n  {string.Join("\n  ", each.Found.Comparisons)}"
                ),
        ];

        Assert.True(wrong.Count == 0, string.Join("\n", wrong));
    }

    [Theory]
    [MemberData(nameof(Names))]
    public void Assess_WorkedRecord_RemediesToTheStep(string name)
    {
        WorkedRecord worked = WorkedRecord.Read(name);
        Assessment assessment = worked.Judged();

        Assert.All(
            worked.Wanted("remedies", assessment),
            each => Assert.Equal(RemedyWords.Wanted(each.Wanted), RemedyWords.Told(each.Found.Remedy))
        );
    }

    [Theory]
    [MemberData(nameof(Names))]
    public void Assess_WorkedRecord_SaysWhatIsToBeSaidBeside(string name)
    {
        WorkedRecord worked = WorkedRecord.Read(name);
        Assessment assessment = worked.Judged();

        Assert.All(
            worked.Wanted("notices", assessment),
            each =>
                Assert.Contains(
                    each.Found.Notices,
                    notice =>
                        notice.Contains(WorkedRecord.Text(each.Wanted, "says")!, StringComparison.Ordinal)
                )
        );
    }

    private static string Line(Finding finding) =>
        $"{finding.Rule} on {finding.Subject.Key}: {Words.Of(finding.Verdict)}, {Words.Of(finding.Reason)}: {finding.Statement}";

    private static bool Agrees(JsonObject wanted, Comparison found) =>
        Is(wanted, "place", found.Place)
        && Is(wanted, "verdict", Words.Of(found.Verdict))
        && Is(wanted, "value", Words.Of(found.Value))
        && Is(wanted, "uncertainty", Words.Of(found.Uncertainty))
        && IsPair(wanted, "known", found.KnownLower, found.KnownUpper)
        && IsPair(wanted, "limits", found.LowerLimit, found.UpperLimit)
        && IsPair(wanted, "accept", found.AcceptLower, found.AcceptUpper);

    private static bool Is(JsonObject wanted, string member, string? found) =>
        WorkedRecord.Text(wanted, member) is not { } text || text == found;

    private static bool IsPair(JsonObject wanted, string member, Length? lower, Length? upper) =>
        !wanted.ContainsKey(member)
        || (
            wanted[member] is JsonArray pair
                ? (pair[0]?.GetValue<string>(), pair[1]?.GetValue<string>())
                    == (Words.Of(lower), Words.Of(upper))
                : (lower, upper) == (null, null)
        );
}
