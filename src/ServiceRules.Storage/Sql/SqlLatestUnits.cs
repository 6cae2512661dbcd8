using System.Data.Common;
using ServiceRules.Application.Ledger;
using ServiceRules.Application.Rows;

namespace ServiceRules.Storage.Sql;

/// <summary>
/// That no later visit is passed over. A row that is left out of a list is missed by nobody; left out of the search for a unit's last
/// visit it would make an older one the last. So the visits of its machine are looked through as well, on another way than by unit.
/// </summary>
internal static class SqlLatestUnits
{
    /// <summary>How many versions of one machine are looked through, the last filed first.</summary>
    public const int MostOfMachine = 64;

    /// <exception cref="LedgerStoreException">A visit is told as the last of a unit that is not.</exception>
    public static RowPage<UnitRow> Hold(DbConnection connection, RowPage<UnitRow> page)
    {
        foreach (var machine in page.Rows.GroupBy(row => row.Of.Machine, StringComparer.Ordinal))
        {
            var versions = connection.Rows(
                $"SELECT {SqlHeldRows.RecordColumns} FROM record_row r WHERE r.machine = @machine ORDER BY r.entry_index DESC LIMIT @most",
                SqlHeldRows.Record,
                ("@machine", machine.Key),
                ("@most", (long)MostOfMachine)
            );
            var later = versions
                .Where(version => version.IsNewest && machine.Any(told => IsLater(version, told.Of)))
                .ToList();
            var passedOver = SqlHeldRows
                .UnitsOf(connection, later)
                .FirstOrDefault(visit =>
                    machine.Any(told => told.Unit == visit.Unit && IsLater(visit.Of, told.Of))
                );
            if (passedOver is not null)
            {
                throw SqlHeldRows.Other(passedOver.Of.Index, RowTable.Unit);
            }
        }

        return page;
    }

    private static bool IsLater(RecordRow version, RecordRow told) =>
        version.Site == told.Site && (version.Day, version.Index).CompareTo((told.Day, told.Index)) > 0;
}
