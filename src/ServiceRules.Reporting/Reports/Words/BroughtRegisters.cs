using System.Collections.Immutable;
using ServiceRules.Domain.Site;

namespace ServiceRules.Reporting.Reports.Words;

/// <summary>That the registers a job was judged with came with its record, and are other than the site's.</summary>
public static class BroughtRegisters
{
    /// <summary>Of one job, a whole sentence; null: they are the site's.</summary>
    public static string? Told(AssessmentContext context)
    {
        ArgumentNullException.ThrowIfNull(context);
        return context.OtherThanTheSites.IsEmpty
            ? null
            : $"The registers were handed in with the record and are other than the site's of that day: {Parts(context.OtherThanTheSites)}.";
    }

    /// <summary>Parts of the registers by the words people read.</summary>
    public static string Parts(ImmutableArray<string> names) => ReportWords.Listed([.. names.Select(Part)]);

    private static string Part(string name) =>
        name switch
        {
            "site" => "another site",
            "jurisdictions" => "the texts cited",
            "settingOrders" => "setting orders",
            "lockStyle" => "how locks look",
            "instruments" => "gauges",
            "removalException" => "the written way to take off a lock",
            _ => name,
        };
}
