using System.Collections.Immutable;
using ServiceRules.Rules.Model;

namespace ServiceRules.Engine.Planning;

/// <summary>
/// Cuts the calendar where some rule begins or ends, so that days between two cuts, on which the same rules are in
/// force, count as one.
/// </summary>
internal sealed class DateSlots
{
    private readonly ImmutableArray<DateOnly> _firstDays;

    public DateSlots(IEnumerable<Rule> rules) =>
        _firstDays = [.. rules.SelectMany(rule => Cuts(rule.When)).Distinct().Order()];

    public int Of(DateOnly day)
    {
        var found = _firstDays.BinarySearch(day);
        return found >= 0 ? found + 1 : ~found;
    }

    private static IEnumerable<DateOnly> Cuts(Applicability when)
    {
        if (when.From is { } from)
        {
            yield return from;
        }

        if (when.Until is { } until && until < DateOnly.MaxValue)
        {
            yield return until.AddDays(1);
        }
    }
}
