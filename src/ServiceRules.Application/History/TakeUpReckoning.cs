using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Statistics;
using ServiceRules.Domain.Wear;

namespace ServiceRules.Application.History;

/// <summary>Reckons take-up. Steps of a job in which the clearance was set anew from nothing tell nothing of wear.</summary>
internal static class TakeUpReckoning
{
    // Fewer steps than these are the last step's rounding. Illustrative, for a site to settle.
    private const decimal FewestSteps = 3m;
    private const decimal Multiple = TakeUp.UsualMultiple;
    private const int FewestNeighbours = 2;

    /// <summary>The take-up of a unit, not yet held against its neighbours.</summary>
    public static TakeUpOutlook? Of(IReadOnlyList<UnitVisit> visits)
    {
        if (visits.Count == 0 || visits[^1].Sheet.Of(AdjusterKind.Clearance)?.Step is not { } print)
        {
            return null;
        }

        // The print that governs counts, as for every reckoning with steps.
        var step = print.Governing.Value;
        List<WearRate> own = [];
        Stretch? stretch = null;
        var isAnew = false;
        foreach (var visit in visits.Where(visit => visit.Hours is not null))
        {
            if (stretch is null || visit.IsSetAnew || visit.HasUncounted || !stretch.Goes(visit))
            {
                // Only what is closed is earlier: a stretch held against itself would hide its own change.
                own.AddRange(stretch?.Rates ?? []);
                isAnew = visit.IsSetAnew;
                stretch = new(visit, step);
                continue;
            }

            stretch.Take(visit);
        }

        if (stretch is null || !stretch.IsTurned || stretch.Hours <= RunningTime.Zero)
        {
            return null;
        }

        var rate = WearRate.Of(step * stretch.Steps, stretch.Hours);
        var against = own.Count == 0 ? null : TakeUp.Against(rate, own);
        return new(
            stretch.From.Day,
            isAnew,
            stretch.Steps,
            stretch.Hours,
            rate,
            against,
            stretch.Steps >= FewestSteps && against?.IsHigh(Multiple) == true,
            null
        );
    }

    /// <summary>Holds each unit of a machine against the others.</summary>
    public static decimal? OddOne(TakeUpOutlook unit, IEnumerable<TakeUpOutlook> neighbours)
    {
        var others = neighbours.Select(one => one.Rate).ToList();
        if (others.Count < FewestNeighbours || unit.StepsIn < FewestSteps)
        {
            return null;
        }

        var middle = Median.Of(others).MillimetresPerHour;
        return middle > 0 && unit.Rate.MillimetresPerHour > Multiple * middle
            ? decimal.Round(unit.Rate.MillimetresPerHour / middle, 1)
            : null;
    }

    /// <summary>The hours and steps since the clearance was last set anew.</summary>
    private sealed class Stretch(UnitVisit from, Length step)
    {
        private readonly List<WearRate> rates = [];
        private UnitVisit turned = from;
        private UnitVisit last = from;

        public UnitVisit From { get; } = from;

        public decimal Steps { get; private set; }

        /// <summary>Whether anything was turned in it; a unit that nobody turned at tells no rate.</summary>
        public bool IsTurned => turned != From;

        /// <summary>From each turn to the next.</summary>
        public IEnumerable<WearRate> Rates => rates;

        /// <summary>To the last visit, turned at or not: what needs no turning wears slowly.</summary>
        public RunningTime Hours => last.Hours!.Value.Since(From.Hours!.Value);

        /// <summary>The same meter, going forward.</summary>
        public bool Goes(UnitVisit visit) => visit.Machine.Id == last.Machine.Id && visit.Hours >= last.Hours;

        /// <summary>Counts the hours of a visit, and its steps.</summary>
        public void Take(UnitVisit visit)
        {
            last = visit;
            if (visit.StepsIn is not { } steps)
            {
                return;
            }

            var hours = visit.Hours!.Value.Since(turned.Hours!.Value);
            Steps += steps;
            turned = visit;
            if (hours > RunningTime.Zero)
            {
                rates.Add(WearRate.Of(step * steps, hours));
            }
        }
    }
}
