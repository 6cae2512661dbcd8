using System.Globalization;

namespace ServiceRules.Application.Rows;

/// <summary>Where in an answer a page ends: the version's place in the log, and the row's in the version.</summary>
public readonly record struct RowPlace(long Index, int Ordinal)
{
    public override string ToString() => string.Create(CultureInfo.InvariantCulture, $"{Index}-{Ordinal}");

    /// <summary>Reads what <see cref="ToString"/> wrote.</summary>
    public static bool TryParse(string? text, out RowPlace place)
    {
        place = default;
        if (
            text?.Split('-') is [var index, var ordinal]
            && long.TryParse(index, NumberStyles.None, CultureInfo.InvariantCulture, out var at)
            && int.TryParse(ordinal, NumberStyles.None, CultureInfo.InvariantCulture, out var within)
        )
        {
            place = new(at, within);
            return true;
        }

        return false;
    }
}
