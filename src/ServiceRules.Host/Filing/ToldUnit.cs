using ServiceRules.Application.Rows;

namespace ServiceRules.Host.Filing;

/// <summary>A unit in a list: one visit to it.</summary>
internal sealed record ToldUnit(
    string Unit,
    string Disposition,
    string Record,
    long Entry,
    DateOnly Day,
    string Machine,
    string State
)
{
    public static ToldUnit Of(UnitRow row) =>
        new(row.Unit, row.Disposition, row.Of.Record, row.Of.Index, row.Of.Day, row.Of.Machine, row.Of.State);
}
