using System.Collections.Immutable;
using System.Globalization;
using ServiceRules.Application.Library;

namespace ServiceRules.Application.Demo;

/// <summary>
/// The invented scenario: two seasons, March to October 2025 and 2026, of the Alder Reach Parks Trust. A function of
/// the seed and the site's registers: the same two give the same jobs on every machine.
/// </summary>
public static class DemoScenario
{
    /// <summary>The seed of the jobs that are committed with the product.</summary>
    public const int UsualSeed = 1;

    private static readonly ImmutableArray<int> Years = [2025, 2026];

    /// <summary>Makes the jobs, in the order in which they were begun.</summary>
    /// <param name="seed">Any number; another one gives other wear, other readings and the same faults.</param>
    /// <param name="site">The registers of the demo site: zone, procedures, setting orders, people.</param>
    public static ImmutableArray<DemoJob> Make(int seed, SiteRegisters site)
    {
        ArgumentNullException.ThrowIfNull(site);
        var shop = new Shop(seed, site);
        return [.. Years.SelectMany(year => Season(shop, year))];
    }

    private static IEnumerable<DemoJob> Season(Shop shop, int year)
    {
        var number = 0;
        var plan = FaultPlan
            .Seeded(SeasonPlan.Of(year))
            .OrderBy(job => job.Day)
            .ThenBy(job => job.NotBefore)
            .ThenBy(job => job.Machine.Id, StringComparer.Ordinal);
        foreach (var job in plan)
        {
            number++;
            yield return shop.Do(job, string.Create(CultureInfo.InvariantCulture, $"J-{year}-{number:0000}"));
        }
    }
}
