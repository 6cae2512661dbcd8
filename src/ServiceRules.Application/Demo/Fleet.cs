using System.Collections.Immutable;
using ServiceRules.Domain.Records;

namespace ServiceRules.Application.Demo;

/// <summary>The eleven machines of the scenario and their 34 units. Invented.</summary>
internal static class Fleet
{
    /// <summary>What units are ground on.</summary>
    public const string Grinder = "GRINDER-1";

    private static readonly ImmutableArray<Attachment> GroomerAndShield =
    [
        Attachment.Groomer,
        Attachment.Shield,
    ];

    private static readonly ImmutableArray<Attachment> BrushAndShield =
    [
        Attachment.RollerBrush,
        Attachment.Shield,
    ];

    public static ImmutableArray<FleetMachine> Machines { get; } =
    [
        Triplex("M-01", "HG-01", 1842.5m, [124.1m, 124.2m, 124.1m], GroomerAndShield, ["tech-01", "tech-02"]),
        Triplex("M-02", "HG-02", 1511.0m, [124.6m, 124.5m, 124.6m], GroomerAndShield, ["tech-02", "tech-01"]),
        Triplex(
            "M-03",
            "HG-01",
            2630.5m,
            [123.4m, 123.5m, 123.4m],
            [Attachment.Shield],
            ["tech-01", "tech-02"]
        ),
        Triplex(
            "M-04",
            "HG-02",
            3207.0m,
            [122.75m, 122.8m, 122.75m],
            [Attachment.Shield],
            ["tech-02", "tech-01"]
        ),
        Pedestrian("M-05", UnitKind.Small, "bowls-green-1", 612.0m, 123.9m),
        Fairway("M-06", "golf-fairways", 2215.5m, [178.2m, 178.0m, 178.3m, 178.1m, 178.2m], BrushAndShield),
        Fairway(
            "M-07",
            "golf-fairways",
            1980.0m,
            [178.8m, 178.9m, 178.7m, 178.8m, 178.8m],
            [Attachment.Shield]
        ),
        Fairway("M-08", "golf-tees", 1124.0m, [179.3m, 179.2m, 179.3m, 179.4m, 179.3m], [Attachment.Shield]),
        new()
        {
            Id = "M-09",
            Kind = UnitKind.Wide,
            Units = 4,
            Area = "cricket-outfield",
            FirstHours = 3950.5m,
            HoursPerWeek = 9m,
            Technicians = ["tech-04", "tech-03"],
            HeightGauge = "HG-05",
            FirstDiameters = [197.1m, 196.8m, 191.2m, 197.0m],
        },
        Pedestrian("M-10", UnitKind.Wide, "cricket-square", 344.0m, 198.4m),
        Pedestrian("M-11", UnitKind.Small, "bowls-green-2", 587.5m, 124.2m),
    ];

    public static FleetMachine Machine(string id) =>
        Machines.First(machine => string.Equals(machine.Id, id, StringComparison.Ordinal));

    private static FleetMachine Triplex(
        string id,
        string gauge,
        decimal hours,
        ImmutableArray<decimal> diameters,
        ImmutableArray<Attachment> attachments,
        ImmutableArray<string> technicians
    ) =>
        new()
        {
            Id = id,
            Kind = UnitKind.Small,
            Units = 3,
            Area = "golf-greens",
            FirstHours = hours,
            HoursPerWeek = 11m,
            Attachments = attachments,
            Technicians = technicians,
            HeightGauge = gauge,
            FirstDiameters = diameters,
        };

    private static FleetMachine Fairway(
        string id,
        string area,
        decimal hours,
        ImmutableArray<decimal> diameters,
        ImmutableArray<Attachment> attachments
    ) =>
        new()
        {
            Id = id,
            Kind = UnitKind.Large,
            Units = 5,
            Area = area,
            FirstHours = hours,
            HoursPerWeek = 14m,
            Attachments = attachments,
            Technicians = ["tech-04", "tech-05", "tech-02"],
            HeightGauge = "HG-04",
            FirstDiameters = diameters,
        };

    private static FleetMachine Pedestrian(
        string id,
        UnitKind kind,
        string area,
        decimal hours,
        decimal diameter
    ) =>
        new()
        {
            Id = id,
            Kind = kind,
            Units = 1,
            Area = area,
            FirstHours = hours,
            HoursPerWeek = 6m,
            Technicians = ["tech-03", "tech-05", "tech-01"],
            HeightGauge = kind.KeepsContact ? "HG-05" : "HG-03",
            FirstDiameters = [diameter],
        };
}
