using System.Collections.Immutable;

namespace ServiceRules.Domain.Statistics;

/// <summary>Columns of length one at right angles, and what each given column is made of: X = QR.</summary>
internal sealed class OrthogonalColumns
{
    // Of a column's length, what the columns before it must leave: below, nothing is left but rounding.
    private const decimal LeastRemainder = 1e-13m;

    private OrthogonalColumns(int count)
    {
        Exponents = new int[count];
    }

    /// <summary>The power of ten that each given column was divided by.</summary>
    public int[] Exponents { get; }

    private List<decimal[]> Columns { get; } = [];

    // R by columns: what each given column holds of those before it, and what it adds.
    private List<decimal[]> Shares { get; } = [];

    /// <summary>None when a column says nothing that those before it do not.</summary>
    public static OrthogonalColumns? Of(ImmutableArray<ImmutableArray<decimal>> columns)
    {
        var made = new OrthogonalColumns(columns.Length);
        for (var j = 0; j < columns.Length; j++)
        {
            made.Exponents[j] = DecimalArithmetic.Exponent(columns[j]);
            decimal[] left =
            [
                .. columns[j].Select(value => DecimalArithmetic.Scaled(value, -made.Exponents[j])),
            ];
            var whole = DecimalArithmetic.Norm(left);
            var shares = made.TakeOut(left);
            var length = DecimalArithmetic.Norm(left);
            if (length <= whole * LeastRemainder)
            {
                return null;
            }

            made.Shares.Add([.. shares, length]);
            made.Columns.Add([.. left.Select(value => value / length)]);
        }

        return made;
    }

    /// <summary>Takes the columns so far out of another, twice, and tells how much of each was in it.</summary>
    public decimal[] TakeOut(decimal[] from)
    {
        var shares = new decimal[Columns.Count];
        for (var pass = 0; pass < 2; pass++)
        {
            for (var i = 0; i < shares.Length; i++)
            {
                var share = DecimalArithmetic.Product(Columns[i], from);
                shares[i] += share;
                for (var row = 0; row < from.Length; row++)
                {
                    from[row] -= share * Columns[i][row];
                }
            }
        }

        return shares;
    }

    /// <summary>R⁻¹, by rows.</summary>
    public decimal[][] Inverse()
    {
        var count = Columns.Count;
        decimal[][] rows = [.. Enumerable.Range(0, count).Select(_ => new decimal[count])];
        for (var column = 0; column < count; column++)
        {
            for (var row = column; row >= 0; row--)
            {
                var rest = row == column ? 1m : 0m;
                for (var k = row + 1; k <= column; k++)
                {
                    rest -= Shares[k][row] * rows[k][column];
                }

                rows[row][column] = rest / Shares[row][row];
            }
        }

        return rows;
    }
}
