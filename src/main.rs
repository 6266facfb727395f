//! The program: hands its arguments to the command line room and exits with the code it gives.

fn main() -> std::process::ExitCode {
    hingewright::cli::run(std::env::args_os().collect())
}
