using System.Globalization;
using ServiceRules.Domain.Remedies;

namespace ServiceRules.Rules.Evaluation;

/// <summary>Parts of a turn as they are said: half a turn, 3/8 of a turn, 1 1/4 turns.</summary>
public static class TurnWords
{
    /// <summary>Without their direction.</summary>
    /// <param name="turns">The parts; less than nothing is told as if it were more.</param>
    public static string Of(HeightTurns turns)
    {
        var parts = Math.Abs(turns.Parts);
        var (whole, rest) = (parts / turns.PartsPerTurn, parts % turns.PartsPerTurn);
        var common = Common(rest, turns.PartsPerTurn);
        var (top, bottom) = (rest / common, turns.PartsPerTurn / common);
        return (whole, top, bottom) switch
        {
            (0, 1, 2) => "half a turn",
            (0, 1, 4) => "a quarter turn",
            (0, > 0, _) => Print($"{top}/{bottom} of a turn"),
            (1, 0, _) => "1 turn",
            (_, 0, _) => Print($"{whole} turns"),
            _ => Print($"{whole} {top}/{bottom} turns"),
        };
    }

    private static int Common(int a, int b) => b == 0 ? a : Common(b, a % b);

    private static string Print(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
