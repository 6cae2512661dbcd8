using System.Globalization;
using ServiceRules.Host.Filing;

namespace ServiceRules.Host.Pages;

/// <summary>What of another record was taken into account, as a page tells it.</summary>
/// <param name="Record">The record; null where the page only knows what it shows.</param>
/// <param name="What">What it shows.</param>
public sealed record ShownOther(string? Record, string What)
{
    internal static IReadOnlyList<ShownOther> Of(ToldOthers? others) =>
        others is null
            ? []
            :
            [
                .. others.Records.Select(other => new ShownOther(
                    other.Id,
                    $"{other.Entries} of its entries, at {other.Machine}"
                )),
                .. others.Elsewhere.Select(other => new ShownOther(
                    null,
                    $"{other.Lock ?? other.Person} at {other.Machine}, from {other.From} "
                        + (other.Until is { } until ? $"until {until}" : "and no end shown")
                )),
                .. others.Hidden is { } hidden
                    ? new[]
                    {
                        new ShownOther(
                            null,
                            $"what this account may not see: {hidden.ToString(CultureInfo.InvariantCulture)} more; a lead can see it"
                        ),
                    }
                    : [],
            ];
}
