using System.Buffers.Binary;
using Microsoft.Data.Sqlite;

namespace ServiceRules.Crash.Tests;

/// <summary>
/// Where tables and their indexes lie in a file of SQLite, after its published file format: the pages of their trees, those that
/// long values overflow to left out.
/// </summary>
internal static class TablePages
{
    private const int PageSizeAt = 16;
    private const byte InnerIndex = 0x02;
    private const byte InnerTable = 0x05;

    /// <summary>Each byte of them that is not zero: most of a page is room to grow.</summary>
    public static IReadOnlyList<long> UsedBytes(string database, params string[] tables)
    {
        var file = File.ReadAllBytes(database);
        var size = (int)BinaryPrimitives.ReadUInt16BigEndian(file.AsSpan(PageSizeAt));
        return
        [
            .. Roots(database, tables)
                .SelectMany(root => Tree(file, size, root))
                .SelectMany(page => Enumerable.Range((page - 1) * size, size))
                .Where(at => file[at] != 0)
                .Select(at => (long)at),
        ];
    }

    private static List<int> Roots(string database, string[] tables)
    {
        using var connection = new SqliteConnection($"Data Source={database};Pooling=False;Mode=ReadOnly");
        connection.Open();
        using var command = connection.CreateCommand();
        command.CommandText = "SELECT tbl_name, rootpage FROM sqlite_schema WHERE rootpage > 0";
        using var rows = command.ExecuteReader();
        var roots = new List<int>();
        while (rows.Read())
        {
            if (tables.Contains(rows.GetString(0)))
            {
                roots.Add(rows.GetInt32(1));
            }
        }

        return roots;
    }

    private static IEnumerable<int> Tree(byte[] file, int size, int page)
    {
        yield return page;
        // The first page begins with the header of the file; no table of ours has its root there.
        var head = (page - 1) * size;
        if (file[head] is not (InnerIndex or InnerTable))
        {
            yield break;
        }

        var cells = BinaryPrimitives.ReadUInt16BigEndian(file.AsSpan(head + 3));
        var below = Enumerable
            .Range(0, cells)
            .Select(cell => head + BinaryPrimitives.ReadUInt16BigEndian(file.AsSpan(head + 12 + (2 * cell))))
            .Append(head + 8)
            .Select(at => (int)BinaryPrimitives.ReadUInt32BigEndian(file.AsSpan(at)));
        foreach (var further in below.SelectMany(child => Tree(file, size, child)))
        {
            yield return further;
        }
    }
}
