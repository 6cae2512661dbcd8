namespace ServiceRules.Application.Importing;

/// <summary>How much one table may hold. Every bound ends hostile or broken files early.</summary>
public static class TableLimits
{
    /// <summary>Bytes of a file: ten years of readings of a large shop are a third of it.</summary>
    public const int Bytes = 32 * 1024 * 1024;

    /// <summary>Bytes of a workbook, unpacked: small files can unpack to anything.</summary>
    public const long UnpackedBytes = 512L * 1024 * 1024;

    /// <summary>Characters of all texts of a workbook.</summary>
    public const int TextCharacters = 64 * 1024 * 1024;

    /// <summary>Rows. With a row for each reading that is some thousands of jobs.</summary>
    public const int Rows = 200_000;

    /// <summary>Cells, whatever the shape of the table: they are held in memory.</summary>
    public const int Cells = 3_000_000;

    /// <summary>Columns. No record has as many different things to say in one row.</summary>
    public const int Columns = 300;

    /// <summary>Characters of one cell: twice what a note of a record may have.</summary>
    public const int CellCharacters = 4_000;

    /// <summary>Problems that are told one by one; more than anyone mends in one sitting.</summary>
    public const int ProblemsTold = 100;
}
