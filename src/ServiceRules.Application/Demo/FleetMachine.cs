using System.Collections.Immutable;
using ServiceRules.Domain.Records;

namespace ServiceRules.Application.Demo;

/// <summary>One machine of the trust.</summary>
internal sealed record FleetMachine
{
    public required string Id { get; init; }

    public required UnitKind Kind { get; init; }

    public required int Units { get; init; }

    public required string Area { get; init; }

    /// <summary>Hour meter on the first day of the scenario.</summary>
    public required decimal FirstHours { get; init; }

    public required decimal HoursPerWeek { get; init; }

    public ImmutableArray<Attachment> Attachments { get; init; } = [Attachment.Shield];

    /// <summary>Who usually works on it, first choice first.</summary>
    public required ImmutableArray<string> Technicians { get; init; }

    /// <summary>The height gauge that hangs beside it.</summary>
    public required string HeightGauge { get; init; }

    /// <summary>Reel diameter on the first day of the scenario, by position.</summary>
    public required ImmutableArray<decimal> FirstDiameters { get; init; }

    /// <summary>Who mows with it.</summary>
    public string Operator =>
        Area switch
        {
            "bowls-green-1" or "bowls-green-2" => "op-01",
            "cricket-square" or "cricket-outfield" => "op-02",
            "golf-fairways" => "op-04",
            _ => "op-03",
        };

    public bool Carries(Attachment attachment) => Attachments.Contains(attachment);
}
