using ServiceRules.Domain.Records;
using ServiceRules.Domain.Site;
using ServiceRules.Rules.Checking;
using ServiceRules.Rules.Diagnostics;

namespace ServiceRules.Rules.Tests.Checking;

/// <summary>Revisions of a procedure follow each other; on no day may two be in force for a machine and place.</summary>
public class ProcedureRevisionTests
{
    private static readonly DateOnly LastDay = new(2026, 2, 9);

    [Fact]
    public void Of_RevisionFromTheDayAfter_IsNoProblem() =>
        Assert.DoesNotContain(
            DiagnosticCode.ProcedureTwice,
            Told(Revision("P-1", null, LastDay), Revision("P-2", LastDay.AddDays(1), null))
        );

    [Fact]
    public void Of_RevisionFromTheSameDay_IsTold() =>
        Assert.Contains(
            DiagnosticCode.ProcedureTwice,
            Told(Revision("P-1", null, LastDay), Revision("P-2", LastDay, null))
        );

    [Fact]
    public void Of_TwoThatNeverEnd_AreTold() =>
        Assert.Contains(
            DiagnosticCode.ProcedureTwice,
            Told(Revision("P-1", null, null), Revision("P-2", LastDay, null))
        );

    [Fact]
    public void Of_SameDayAtAnotherPlace_IsNoProblem() =>
        Assert.DoesNotContain(
            DiagnosticCode.ProcedureTwice,
            Told(Revision("P-1", null, null), Revision("P-2", null, null) with { Place = WorkPlace.OnBench })
        );

    private static IEnumerable<string> Told(params Procedure[] procedures) =>
        PackCheck
            .Of(
                new()
                {
                    Procedures = [.. procedures.Select(one => new Placed<Procedure>(one, one.Id.Text, ""))],
                }
            )
            .Select(remark => remark.Code);

    private static Procedure Revision(string id, DateOnly? from, DateOnly? until) =>
        new()
        {
            Id = new(id),
            Title = "Ride-on",
            Machines = [new("M-01")],
            Place = WorkPlace.OnMachine,
            Sources = [],
            Controls = new(true, true, true, true),
            From = from,
            Until = until,
        };
}
