using System.Collections.Immutable;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Site;

namespace ServiceRules.Rules.Evaluation;

/// <summary>The instruments of a record with what the site's register says of each put beside it.</summary>
public static class GaugesHeld
{
    /// <summary>The instruments, in the order of the record.</summary>
    /// <param name="record">The record.</param>
    /// <param name="context">Its frozen context; one that says nothing of gauges leaves each to its own word.</param>
    public static ImmutableArray<Instrument> Of(ServiceRecord record, AssessmentContext context)
    {
        ArgumentNullException.ThrowIfNull(record);
        ArgumentNullException.ThrowIfNull(context);
        return context.Instruments is not { } register
            ? record.Instruments
            :
            [
                .. record.Instruments.Select(gauge =>
                    gauge with
                    {
                        Register = new(register.FirstOrDefault(known => known.Id == gauge.Id)),
                    }
                ),
            ];
    }
}
