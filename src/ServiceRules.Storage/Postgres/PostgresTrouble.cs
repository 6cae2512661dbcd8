using System.Data.Common;
using Npgsql;
using ServiceRules.Application.Ledger;

namespace ServiceRules.Storage.Postgres;

/// <summary>States and failures of PostgreSQL as what they mean to the people of a shop.</summary>
internal static class PostgresTrouble
{
    public static LedgerStoreException Of(DbException failure, string place)
    {
        var (trouble, words) = failure switch
        {
            PostgresException told => Of(told.SqlState),
            { InnerException: TimeoutException } => (StoreTrouble.Busy, "did not answer in time"),
            _ => (StoreTrouble.Gone, "cannot be reached"),
        };
        return new(trouble, $"{place} {words}: {failure.Message}", failure);
    }

    private static (StoreTrouble Trouble, string Words) Of(string state) =>
        state switch
        {
            PostgresErrorCodes.DiskFull => (StoreTrouble.Full, "cannot grow: the disk is full"),
            PostgresErrorCodes.ReadOnlySqlTransaction => (StoreTrouble.ReadOnly, "may not be written to"),
            PostgresErrorCodes.LockNotAvailable
            or PostgresErrorCodes.QueryCanceled
            or PostgresErrorCodes.SerializationFailure
            or PostgresErrorCodes.DeadlockDetected
            or PostgresErrorCodes.TooManyConnections
            or PostgresErrorCodes.OutOfMemory => (StoreTrouble.Busy, "is kept busy by others"),
            PostgresErrorCodes.DataCorrupted
            or PostgresErrorCodes.IndexCorrupted
            or PostgresErrorCodes.UndefinedTable
            or PostgresErrorCodes.UndefinedColumn => (StoreTrouble.Damaged, "is damaged, or is no ledger"),
            PostgresErrorCodes.AdminShutdown
            or PostgresErrorCodes.CrashShutdown
            or PostgresErrorCodes.CannotConnectNow => (StoreTrouble.Gone, "is stopping or starting"),
            _ when state.StartsWith("08", StringComparison.Ordinal) => (StoreTrouble.Gone, "was cut off"),
            _ => (StoreTrouble.Failed, "failed"),
        };
}
