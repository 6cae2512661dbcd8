using ServiceRules.Engine.Planning;
using ServiceRules.Rules.Model;

namespace ServiceRules.Engine.Tests.Planning;

public class DateSlotsTests
{
    [Fact]
    public void For_KeptPlanOnNeighbouringDays_ForgetsNoRuleAndKeepsNone()
    {
        var when = new Applicability { From = Jobs.Day, Until = Jobs.Day.AddDays(2) };
        var plan = CompiledPlan.Compile([Jobs.Rule("r", when: when)]);

        var applied = Enumerable
            .Range(-2, 7)
            .Select(day => Jobs.Record(Jobs.Unit("a")) with { Date = Jobs.Day.AddDays(day) })
            .Select(record => plan.For(Jobs.Frame(record, [])).Any());

        Assert.Equal([false, false, true, true, true, false, false], applied);
    }

    [Fact]
    public void Of_DaysBetweenTwoCuts_CountAsOne()
    {
        var slots = new DateSlots([
            Jobs.Rule("r", when: new() { From = Jobs.Day }),
            Jobs.Rule("s", when: new() { Until = Jobs.Day.AddDays(10) }),
            Jobs.Rule("t", when: new() { Until = DateOnly.MaxValue }),
        ]);

        Assert.Equal(slots.Of(Jobs.Day), slots.Of(Jobs.Day.AddDays(10)));
        Assert.NotEqual(slots.Of(Jobs.Day), slots.Of(Jobs.Day.AddDays(-1)));
        Assert.NotEqual(slots.Of(Jobs.Day), slots.Of(Jobs.Day.AddDays(11)));
    }
}
