using ServiceRules.Domain.Records;
using ServiceRules.Domain.Site;
using ServiceRules.Engine.Planning;
using ServiceRules.Rules.Model;

namespace ServiceRules.Engine.Tests.Planning;

public class AppliesWhenTests
{
    private static readonly Dictionary<string, Applicability> Variants = new(StringComparer.Ordinal)
    {
        [nameof(Applicability.Tasks)] = new() { Tasks = [ServiceTask.Grind] },
        [nameof(Applicability.Sheets)] = new() { Sheets = ["small"] },
        [nameof(Applicability.Bedknife)] = new() { Bedknife = BedknifeMounting.Moving },
        [nameof(Applicability.Attachments)] = new() { Attachments = [Attachment.Groomer] },
        [nameof(Applicability.Areas)] = new() { Areas = ["greens"] },
        [nameof(Applicability.Place)] = new() { Place = WorkPlace.OnMachine },
        [nameof(Applicability.Isolation)] = new() { Isolation = true },
        [nameof(Applicability.School)] = new() { School = ContactSchool.AirGap },
        [nameof(Applicability.OrRead)] = new() { OrRead = [MeasuredQuantity.Clearance] },
        [nameof(Applicability.AnyRead)] = new() { AnyRead = [MeasuredQuantity.Clearance] },
        [nameof(Applicability.AnyReadAlong)] = new() { AnyReadAlong = [MeasuredQuantity.Clearance] },
        [nameof(Applicability.AnyTurned)] = new() { AnyTurned = [AdjusterKind.Clearance] },
        [nameof(Applicability.Ground)] = new() { Ground = false },
        [nameof(Applicability.SheetStates)] = new() { SheetStates = MeasuredQuantity.Clearance },
        [nameof(Applicability.From)] = new() { From = Jobs.Day },
        [nameof(Applicability.Until)] = new() { Until = Jobs.Day },
    };

    [Fact]
    public void Equals_EveryPartOfAnApplicability_IsCompared()
    {
        var parts = typeof(Applicability)
            .GetProperties()
            .Where(p => !p.GetMethod!.IsStatic)
            .Select(p => p.Name);

        Assert.Equal(parts.Order(StringComparer.Ordinal), Variants.Keys.Order(StringComparer.Ordinal));
        var all = Variants
            .Values.Append(Applicability.Always)
            .SelectMany(when => Enum.GetValues<RuleScope>().Select(scope => new AppliesWhen(scope, when)))
            .ToList();
        Assert.Equal(all.Count, all.Distinct().Count());
    }

    [Fact]
    public void Equals_ListsInAnotherOrder_AreTheSame()
    {
        var one = new AppliesWhen(RuleScope.Unit, new() { Tasks = [ServiceTask.Grind, ServiceTask.Lap] });
        var other = new AppliesWhen(RuleScope.Unit, new() { Tasks = [ServiceTask.Lap, ServiceTask.Grind] });

        Assert.Equal(one, other);
        Assert.Equal(one.GetHashCode(), other.GetHashCode());
    }

    [Theory]
    [InlineData("a;1:b", "a", "b")]
    [InlineData("a b", "a", "b")]
    [InlineData("1:a;", "a", "")]
    public void Equals_AreaNamesMadeToLookLikeTwo_StayApart(string tricky, string first, string second) =>
        Assert.NotEqual(
            new AppliesWhen(RuleScope.Unit, new() { Areas = [tricky] }),
            new AppliesWhen(RuleScope.Unit, new() { Areas = [first, second] })
        );
}
