using ServiceRules.Domain.Quantities;

namespace ServiceRules.Domain.Wear;

/// <summary>How many whole parts a length still holds.</summary>
internal static class WholeParts
{
    public static int Of(Length left, Length part)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(part.Millimetres);
        return (int)Math.Clamp(decimal.Floor(left.Millimetres / part.Millimetres), 0m, int.MaxValue);
    }
}
