using System.Collections.Immutable;
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

    /// <summary>Makes the jobs, in the order in which they were done.</summary>
    /// <param name="seed">Any number; another one gives other wear, other readings and the same faults.</param>
    /// <param name="site">The registers of the demo site: zone, procedures, setting orders, people.</param>
    public static ImmutableArray<DemoJob> Make(int seed, SiteRegisters site)
    {
        ArgumentNullException.ThrowIfNull(site);
        return [];
    }
}
