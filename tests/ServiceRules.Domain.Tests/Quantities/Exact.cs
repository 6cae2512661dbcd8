using System.Globalization;

namespace ServiceRules.Domain.Tests.Quantities;

/// <summary>Decimal constants of theories, which attributes can only carry as text.</summary>
internal static class Exact
{
    public static decimal Of(string text) =>
        decimal.Parse(
            text,
            NumberStyles.AllowLeadingSign | NumberStyles.AllowDecimalPoint,
            CultureInfo.InvariantCulture
        );
}
