using System.Globalization;

namespace ServiceRules.Application.Ledger;

/// <summary>How places of a log are named to people.</summary>
internal static class LedgerWords
{
    public static string Entry(long index) => string.Create(CultureInfo.InvariantCulture, $"entry {index}");

    /// <summary>The entries from one place up to, not including, another.</summary>
    public static string Entries(long from, long until) =>
        until - from == 1
            ? Entry(from)
            : string.Create(CultureInfo.InvariantCulture, $"entries {from} to {until - 1}");

    public static string Number(long number) => number.ToString(CultureInfo.InvariantCulture);
}
