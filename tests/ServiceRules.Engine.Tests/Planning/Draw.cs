using System.Collections.Immutable;
using System.Globalization;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Site;
using ServiceRules.Rules.Evaluation;
using ServiceRules.Rules.Model;

namespace ServiceRules.Engine.Tests.Planning;

/// <summary>Draws rules and jobs in which applicability often matches and often does not.</summary>
internal sealed class Draw(Random random)
{
    public Rule Rule(int number)
    {
        var from = random.Next(-20, 20);
        return Jobs.Rule(
            string.Create(CultureInfo.InvariantCulture, $"rule-{number:00}"),
            random.GetItems(Enum.GetValues<RuleScope>(), 1)[0],
            when: new()
            {
                Tasks = Some<ServiceTask>(0.4, 4),
                OrRead = Rarely() ? Some<MeasuredQuantity>(1, 3) : [],
                Sheets = Rarely() ? ["small"] : [],
                Bedknife = Rarely() ? BedknifeMounting.Fixed : null,
                Attachments = Rarely() ? Some<Attachment>(1, 2) : [],
                Areas = Rarely() ? ["greens", "tees"] : [],
                Place = Rarely() ? WorkPlace.OnMachine : null,
                Isolation = Rarely() ? random.Next(2) == 0 : null,
                School = Rarely() ? ContactSchool.AirGap : null,
                AnyRead = Rarely() ? Some<MeasuredQuantity>(1, 3) : [],
                AnyReadAlong = Rarely() ? Some<MeasuredQuantity>(1, 3) : [],
                AnyTurned = Rarely() ? Some<AdjusterKind>(1, 3) : [],
                Ground = Rarely() ? random.Next(2) == 0 : null,
                SheetStates = Rarely() ? random.GetItems(Enum.GetValues<MeasuredQuantity>(), 1)[0] : null,
                From = Rarely() ? Jobs.Day.AddDays(from) : null,
                Until = Rarely() ? Jobs.Day.AddDays(from + random.Next(15)) : null,
            }
        );
    }

    public JobFrame Frame()
    {
        var units = Enumerable
            .Range(1, random.Next(1, 5))
            .Select(number =>
                Jobs.Unit(
                    string.Create(CultureInfo.InvariantCulture, $"u{number}"),
                    random.Next(2) == 0 ? "small" : "large",
                    [
                        .. Some<AdjusterKind>(0.5, 2).Select(Turned),
                        .. Ground(),
                        .. Some<MeasuredQuantity>(0.5, 2).Select(Read),
                    ]
                ) with
                {
                    Tasks = Some<ServiceTask>(0.3, 2),
                    Attachments = Some<Attachment>(0.6, 3),
                }
            )
            .ToArray();
        var record = Jobs.Record(units) with
        {
            Date = Jobs.Day.AddDays(random.Next(-15, 15)),
            Place = random.Next(4) == 0 ? WorkPlace.OnBench : WorkPlace.OnMachine,
            Machine = new(
                new("machine-1"),
                random.Next(3) switch
                {
                    0 => null,
                    1 => "greens",
                    _ => "rough",
                },
                null
            ),
            Tasks = Some<ServiceTask>(1, 2),
        };
        return Jobs.Frame(
            record,
            [],
            school: unit => unit.Sheet == "small" ? ContactSchool.AirGap : null
        ) with
        {
            Procedure =
                random.Next(2) == 0 ? null : Jobs.Procedure(random.Next(2) == 0 ? "wall isolator" : null),
        };
    }

    public IEnumerable<T> Shuffled<T>(T[] items)
    {
        T[] copy = [.. items];
        random.Shuffle(copy);
        return copy;
    }

    private bool Rarely() => random.Next(5) == 0;

    private ImmutableArray<T> Some<T>(double chance, int most)
        where T : struct, Enum =>
        random.NextDouble() < chance
            ? [.. random.GetItems(Enum.GetValues<T>(), random.Next(1, most + 1))]
            : [];

    private IEnumerable<BenchEntry> Ground() =>
        random.Next(3) == 0 ? [new Grinding { Kind = GrindingKind.ReelSpin }] : [];

    private static BenchEntry Read(MeasuredQuantity quantity) =>
        new Reading { Quantity = quantity, Observed = new Observation.Seen(Condition.Sound) };

    private static BenchEntry Turned(AdjusterKind kind) =>
        new Adjustment
        {
            Adjuster = kind,
            Side = Side.Both,
            Amount = new AdjustmentAmount.NotStated(),
        };
}
