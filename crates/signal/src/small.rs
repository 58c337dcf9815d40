//! Small dense symmetric systems.

/// Lower Cholesky factor of the symmetric positive matrix `a` (`n`×`n`, row by row), in place; `None` if it is not positive.
pub(crate) fn cholesky(a: &mut [f64], n: usize) -> Option<f64> {
    let mut log_det = 0.0;
    for j in 0..n {
        for i in j..n {
            let mut sum = a[i * n + j];
            for k in 0..j {
                sum -= a[i * n + k] * a[j * n + k];
            }
            if i == j {
                if sum <= 0.0 {
                    return None;
                }
                log_det += sum.ln();
                a[j * n + j] = sum.sqrt();
            } else {
                a[i * n + j] = sum / a[j * n + j];
            }
        }
    }
    Some(log_det)
}

/// Solves L·x = b in place for the lower factor of [`cholesky`].
pub(crate) fn forward(l: &[f64], n: usize, b: &mut [f64]) {
    for i in 0..n {
        let mut sum = b[i];
        for k in 0..i {
            sum -= l[i * n + k] * b[k];
        }
        b[i] = sum / l[i * n + i];
    }
}

/// [`forward`] for two right-hand sides at once: the factor is read only once.
pub(crate) fn forward_two(l: &[f64], n: usize, a: &mut [f64], b: &mut [f64]) {
    for i in 0..n {
        let row = &l[i * n..=i * n + i];
        let (mut sum_a, mut sum_b) = (a[i], b[i]);
        for ((x, a), b) in row[..i].iter().zip(&*a).zip(&*b) {
            sum_a -= x * a;
            sum_b -= x * b;
        }
        a[i] = sum_a / row[i];
        b[i] = sum_b / row[i];
    }
}

/// Σ a·b.
pub(crate) fn dot(a: &[f64], b: &[f64]) -> f64 {
    a.iter().zip(b).map(|(x, y)| x * y).sum()
}
