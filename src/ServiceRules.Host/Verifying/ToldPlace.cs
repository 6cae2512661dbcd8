using ServiceRules.Application.Reports;

namespace ServiceRules.Host.Verifying;

/// <summary>Where a report stands in the log of this service.</summary>
/// <param name="Record">The record that it is about; left out where it is of a period.</param>
/// <param name="Period">The period that it is of; left out where it is about a record.</param>
/// <param name="Entry">The entry of this very file.</param>
/// <param name="SupersededBy">The entry of a later assessment of that record, or the last by which a record of that period was filed or
/// corrected that the report does not tell, or was judged anew since; left out where the report tells the latest.</param>
internal sealed record ToldPlace(string? Record, ToldPeriod? Period, long Entry, long? SupersededBy)
{
    public static ToldPlace Of(ReportHere here) => new(here.Subject, null, here.Index, here.Newer);

    public static ToldPlace Of(PeriodHere here) =>
        new(null, new(here.From, here.Until, here.Sites), here.Index, here.Newer);
}
