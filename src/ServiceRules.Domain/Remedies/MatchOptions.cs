using System.Collections.Immutable;
using ServiceRules.Domain.Quantities;

namespace ServiceRules.Domain.Remedies;

/// <summary>Every setting that a unit may be given: staying, and all moves of its grid that leave it level and in its zone.</summary>
internal static class MatchOptions
{
    /// <summary>More heights than this either way of the target are not tried: the unit is set to a range first.</summary>
    private const int MostParts = 60;

    /// <summary>The settings, staying first, then from the nearest to the target.</summary>
    public static ImmutableArray<MatchSetting> Of(MatchUnit unit)
    {
        var stay = Setting(unit, unit.Left, unit.Right, isMoved: false);
        var moves = Grid(unit)
            .Where(setting => setting.Left != Length.Zero || setting.Right != Length.Zero)
            .Where(setting => IsAllowed(unit, setting))
            .OrderBy(setting => setting.Steps)
            .ThenBy(setting => setting.OffTarget(unit.Target))
            .ThenBy(setting => setting.LeftEnd)
            .ThenBy(setting => setting.RightEnd);
        return unit.MustMove ? [.. moves] : [stay, .. moves];
    }

    private static IEnumerable<MatchSetting> Grid(MatchUnit unit)
    {
        for (var count = -MostParts; count <= MostParts; count++)
        {
            var level = unit.Target + (unit.Part * count);
            if (unit.Moves is MoveKind.Freely)
            {
                yield return Setting(unit, level, level, isMoved: true);
                continue;
            }

            var left = Nearest(unit.Left, level, unit.Part);
            var right = Nearest(unit.Right, left, unit.Part);
            // Level to within a part: beside the nearest, what lies no further than a part from the left.
            foreach (
                var beside in new[] { -1, 0, 1 }
                    .Select(parts => right + (unit.Part * parts))
                    .Where(each => (each - left).Abs <= unit.Part)
            )
            {
                yield return Setting(unit, left, beside, isMoved: true);
            }
        }
    }

    /// <summary>The height nearest to a level that whole parts reach; ties to the smaller turn.</summary>
    private static Length Nearest(Length now, Length level, Length part)
    {
        var exact = (level - now).Millimetres / part.Millimetres;
        var whole = decimal.Truncate(exact);
        var parts = Math.Abs(exact - whole) > 0.5m ? whole + Math.Sign(exact) : whole;
        return now + (part * parts);
    }

    private static bool IsAllowed(MatchUnit unit, MatchSetting setting)
    {
        var tilt = (setting.RightEnd - setting.LeftEnd).Abs;
        return (
                unit.Zone is null
                || (unit.Zone.Contains(setting.LeftEnd) && unit.Zone.Contains(setting.RightEnd))
            ) && !(tilt > unit.MostTilt);
    }

    private static MatchSetting Setting(MatchUnit unit, Length left, Length right, bool isMoved)
    {
        var (moveLeft, moveRight) = (left - unit.Left, right - unit.Right);
        return new(
            isMoved,
            moveLeft,
            moveRight,
            unit.At(Length.Zero, left, right),
            unit.At(unit.Width * 0.5m, left, right),
            unit.At(unit.Width, left, right),
            unit.Moves is MoveKind.BySteps
                ? (int)((moveLeft.Abs + moveRight.Abs).Millimetres / unit.Part.Millimetres)
                : 0
        );
    }
}
