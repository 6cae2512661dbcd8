using System.Collections.Immutable;
using System.Linq.Expressions;
using FsCheck.Xunit;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Site;
using ServiceRules.Engine.Planning;
using ServiceRules.Engine.Tests.Inference;
using ServiceRules.Rules.Evaluation;
using ServiceRules.Rules.Model;

namespace ServiceRules.Engine.Tests.Planning;

public class CompiledPlanTests
{
    private static string[] Applied(JobFrame frame, params Rule[] rules) =>
        Applied(CompiledPlan.Compile([.. rules]), frame);

    private static string[] Applied(CompiledPlan plan, JobFrame frame) =>
        [.. plan.For(frame).Select(r => $"{r.Rule.Id}@{r.Subject.Key}").Order(StringComparer.Ordinal)];

    private static string[] UnitsOf(Applicability when, ServiceRecord record) =>
        Applied(
            Jobs.Frame(record, [], school: u => u.Sheet == "small" ? ContactSchool.AirGap : null),
            Jobs.Rule("r", when: when)
        );

    [Fact]
    public void For_NoCondition_AppliesToEachSubjectOfItsScope()
    {
        var frame = Jobs.Frame(Jobs.Record(Jobs.Unit("a"), Jobs.Unit("b")), []);

        Assert.Equal(
            ["job-rule@job", "set-rule@set", "unit-rule@unit/a", "unit-rule@unit/b"],
            Applied(
                frame,
                Jobs.Rule("unit-rule"),
                Jobs.Rule("set-rule", RuleScope.Set),
                Jobs.Rule("job-rule", RuleScope.Job)
            )
        );
    }

    [Fact]
    public void For_EachPart_PicksTheUnitsThatHaveIt()
    {
        var turned = new Adjustment
        {
            Adjuster = AdjusterKind.Clearance,
            Side = Side.Left,
            Amount = new AdjustmentAmount.NotStated(),
        };
        var guards = new Reading
        {
            Quantity = MeasuredQuantity.Guards,
            Observed = new Observation.Seen(Condition.Sound),
        };
        var record = Jobs.Record(
            Jobs.Unit("a", "small", guards) with
            {
                Attachments = [Attachment.Groomer, Attachment.Shield],
            },
            Jobs.Unit("b", "large", turned) with
            {
                Tasks = [ServiceTask.Grind],
                Attachments = [Attachment.Groomer],
            },
            Jobs.Unit("c", "small", new Grinding { Kind = GrindingKind.ReelSpin })
        );

        Assert.Equal(["r@unit/b"], UnitsOf(new() { Tasks = [ServiceTask.Grind, ServiceTask.Lap] }, record));
        Assert.Equal(["r@unit/a", "r@unit/c"], UnitsOf(new() { Tasks = [ServiceTask.HeightCheck] }, record));
        Assert.Equal(["r@unit/a", "r@unit/c"], UnitsOf(new() { Sheets = ["small", "other"] }, record));
        Assert.Equal(["r@unit/b"], UnitsOf(new() { Bedknife = BedknifeMounting.Fixed }, record));
        Assert.Equal(["r@unit/a", "r@unit/b"], UnitsOf(new() { Attachments = [Attachment.Groomer] }, record));
        Assert.Equal(
            ["r@unit/a"],
            UnitsOf(new() { Attachments = [Attachment.Shield, Attachment.Groomer] }, record)
        );
        Assert.Equal(["r@unit/a", "r@unit/c"], UnitsOf(new() { School = ContactSchool.AirGap }, record));
        Assert.Equal(["r@unit/b"], UnitsOf(new() { AnyTurned = [AdjusterKind.Clearance] }, record));
        Assert.Equal(
            ["r@unit/a"],
            UnitsOf(new() { AnyRead = [MeasuredQuantity.Edge, MeasuredQuantity.Guards] }, record)
        );
        Assert.Equal(["r@unit/c"], UnitsOf(new() { Ground = true }, record));
        Assert.Equal(["r@unit/a", "r@unit/b"], UnitsOf(new() { Ground = false }, record));
        Assert.Equal([], UnitsOf(new() { SheetStates = MeasuredQuantity.ShieldGap }, record));
        Assert.Equal([], UnitsOf(new() { Areas = ["tees"] }, record));
        Assert.Equal([], UnitsOf(new() { Place = WorkPlace.OnBench }, record));
        Assert.Equal(3, UnitsOf(new() { Areas = ["greens"], Place = WorkPlace.OnMachine }, record).Length);
    }

    /// <summary>On the machine there is always something to switch off; on the bench where its procedure says so.</summary>
    [Theory]
    [InlineData(WorkPlace.OnMachine, false, null, true)]
    [InlineData(WorkPlace.OnMachine, true, null, true)]
    [InlineData(WorkPlace.OnBench, false, null, false)]
    [InlineData(WorkPlace.OnBench, true, null, false)]
    [InlineData(WorkPlace.OnBench, true, "wall isolator", true)]
    public void For_Isolation_AsksThePlaceAndTheProcedure(
        WorkPlace place,
        bool isWritten,
        string? isolator,
        bool applies
    )
    {
        var rule = Jobs.Rule("r", RuleScope.Job, when: new() { Isolation = true });
        var other = Jobs.Rule("s", RuleScope.Job, when: new() { Isolation = false });
        var frame = Jobs.Frame(
            Jobs.Record(Jobs.Unit("a", "small")) with
            {
                Place = place,
            },
            [rule, other]
        ) with
        {
            Procedure = isWritten ? Jobs.Procedure(isolator) : null,
        };

        Assert.Equal(
            [applies ? "r" : "s"],
            CompiledPlan.Compile([rule, other]).For(frame).Select(on => on.Rule.Id.Text)
        );
    }

    /// <summary>Left, right and middle are places of their own; the gauging station is the same place by name and by distance.</summary>
    [Theory]
    [InlineData(true, "left", "right")]
    [InlineData(true, "left", "255 mm")]
    [InlineData(false, "left", "left")]
    [InlineData(false, "left", null)]
    [InlineData(false, null, null)]
    public void For_ReadAlongTheWidth_AsksForTwoPlaces(bool applies, string? first, string? second)
    {
        Reading Diameter(string? at) =>
            new()
            {
                Quantity = MeasuredQuantity.ReelDiameter,
                Station = at switch
                {
                    null => null,
                    "left" => new Station.Named(StationName.Left),
                    "right" => new Station.Named(StationName.Right),
                    _ => new Station.AtDistance(Length(at)),
                },
                Observed = new Observation.Measured(Length("124.0 mm")),
            };

        var record = Jobs.Record(Jobs.Unit("a", "small", Diameter(first), Diameter(second)));

        Assert.Equal(
            applies ? ["r@unit/a"] : [],
            UnitsOf(new() { AnyReadAlong = [MeasuredQuantity.ReelDiameter] }, record)
        );
    }

    private static PrintedLength Length(string text) =>
        PrintedLength.Parse(text).TryGet(out var length, out _)
            ? length
            : throw new ArgumentException(text, nameof(text));

    [Theory]
    [InlineData(0, 0, true)]
    [InlineData(1, 5, false)]
    [InlineData(-5, -1, false)]
    [InlineData(-5, 0, true)]
    [InlineData(0, 5, true)]
    public void For_PeriodInForce_CountsItsFirstAndLastDay(int from, int until, bool applies)
    {
        var when = new Applicability { From = Jobs.Day.AddDays(from), Until = Jobs.Day.AddDays(until) };

        Assert.Equal(applies ? ["r@unit/a"] : [], UnitsOf(when, Jobs.Record(Jobs.Unit("a"))));
    }

    [Fact]
    public void For_SetAndJob_AskPartsOfOneAndTheSameUnitAndTasksOfAll()
    {
        var record = Jobs.Record(
            Jobs.Unit("a") with
            {
                Attachments = [Attachment.Groomer],
            },
            Jobs.Unit("b", "large") with
            {
                Tasks = [ServiceTask.Grind],
            }
        );
        var both = new Applicability
        {
            Bedknife = BedknifeMounting.Fixed,
            Attachments = [Attachment.Groomer],
        };

        var applied = Applied(
            Jobs.Frame(record, []),
            Jobs.Rule("grind", RuleScope.Job, when: new() { Tasks = [ServiceTask.Grind] }),
            Jobs.Rule("fixed", RuleScope.Set, when: new() { Bedknife = BedknifeMounting.Fixed }),
            Jobs.Rule("both", RuleScope.Set, when: both),
            Jobs.Rule("own", RuleScope.Job, when: new() { Tasks = [ServiceTask.HeightCheck] })
        );

        Assert.Equal(["fixed@set", "grind@job", "own@job"], applied);
    }

    [Property(MaxTest = 20)]
    public void For_EachRuleAloneAndAllTogetherShuffled_AgreeWithAPlainReading(int seed)
    {
        var draw = new Draw(new Random(seed));
        var rules = Enumerable.Range(0, 12).Select(draw.Rule).ToArray();
        var together = CompiledPlan.Compile([.. draw.Shuffled(rules)]);
        var alone = rules.Select(rule => CompiledPlan.Compile([rule])).ToArray();

        // The plan is kept from record to record, so that what it remembers is tried as well.
        for (var job = 0; job < 6; job++)
        {
            var frame = draw.Frame();
            var expected = rules
                .SelectMany(rule => PlainReading.Of(rule, frame).Select(subject => $"{rule.Id}@{subject}"))
                .Order(StringComparer.Ordinal)
                .ToArray();

            Assert.Equal(expected, Applied(together, frame));
            Assert.Equal(
                expected,
                alone.SelectMany(plan => Applied(plan, frame)).Order(StringComparer.Ordinal)
            );
        }
    }

    [Fact]
    public void Productions_OfAPlan_HaveOnlyCallsOnConstantsOnTheirLeft()
    {
        var draw = new Draw(new Random(1));
        ImmutableArray<Rule> rules = [.. Enumerable.Range(0, 30).Select(draw.Rule)];
        ExpressionType[] allowed =
        [
            ExpressionType.Lambda,
            ExpressionType.Call,
            ExpressionType.Constant,
            ExpressionType.Parameter,
        ];

        var nodes = CompiledPlan
            .Productions(rules)
            .SelectMany(p => LambdaShape.OfLeftHandSide(p.Definition))
            .ToList();

        Assert.NotEmpty(nodes);
        Assert.All(nodes, node => Assert.Contains(node, allowed));
    }
}
