using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;
using ServiceRules.Rules.Model;

namespace ServiceRules.Engine.Tests.Properties;

/// <summary>Jobs, sheets and remedies as seen in a mirror: left is right.</summary>
internal static class Mirror
{
    public static ServiceRecord Of(ServiceRecord record)
    {
        int most = record.Units.Max(unit => unit.Position) ?? 0;
        return record with
        {
            Units =
            [
                .. record.Units.Select(unit =>
                    unit with
                    {
                        Position = most + 1 - unit.Position,
                        Entries = [.. unit.Entries.Select(Of)],
                    }
                ),
            ],
        };
    }

    public static LimitSheet Of(LimitSheet sheet) =>
        sheet with
        {
            Adjusters =
            [
                .. sheet.Adjusters.Select(one =>
                    one with
                    {
                        LeftAt = FromOtherEnd(one.RightAt, sheet),
                        RightAt = FromOtherEnd(one.LeftAt, sheet),
                    }
                ),
            ],
            Quantities =
            [
                .. sheet.Quantities.Select(limit =>
                    limit with
                    {
                        LeftStation = FromOtherEnd(limit.RightStation, sheet),
                        RightStation = FromOtherEnd(limit.LeftStation, sheet),
                    }
                ),
            ],
        };

    private static BenchEntry Of(BenchEntry entry) =>
        entry switch
        {
            Reading { Station: Station.Named named } reading => reading with
            {
                Station = new Station.Named(
                    named.Name switch
                    {
                        StationName.Left => StationName.Right,
                        StationName.Right => StationName.Left,
                        var middle => middle,
                    }
                ),
            },
            Adjustment turned => turned with
            {
                Side = turned.Side switch
                {
                    Side.Left => Side.Right,
                    Side.Right => Side.Left,
                    var both => both,
                },
            },
            _ => entry,
        };

    private static PrintedLength? FromOtherEnd(PrintedLength? place, LimitSheet sheet) =>
        place is null ? null
        : PrintedLength
            .Of(sheet.Width.Governing.Value.Millimetres - place.Value.Millimetres, LengthUnit.Millimetre)
            .TryGet(out var print, out _)
            ? print
        : throw new FormatException($"{place} cannot be mirrored");
}
